import type { NumberedMark } from "#views/parts/marked-side.tsx";
import type { ReportSheet } from "./report-sheet.ts";

type Box = { readonly leftPt: number; readonly topPt: number; readonly widthPt: number; readonly heightPt: number };

/** The largest box of a picture's shape within another. */
export function within(
  of: { width: number; height: number },
  most: { widthPt: number; heightPt: number },
): { widthPt: number; heightPt: number } {
  const scale = Math.min(most.widthPt / of.width, most.heightPt / of.height);
  return { widthPt: of.width * scale, heightPt: of.height * scale };
}

const DISC_PT = 6.5;

/** A side of a print with the marked places drawn and numbered over it, as on the screen: white around black, so that both show. */
export function drawSide(
  { document }: ReportSheet,
  jpeg: Buffer,
  sheet: { widthMm: number; heightMm: number },
  marks: readonly NumberedMark[],
  { leftPt, topPt, widthPt, heightPt }: Box,
): void {
  document.image(jpeg, leftPt, topPt, { width: widthPt, height: heightPt });
  const x = (mm: number) => leftPt + (mm * widthPt) / sheet.widthMm;
  const y = (mm: number) => topPt + (mm * heightPt) / sheet.heightMm;
  const inside = (at: number, from: number, size: number) => Math.min(from + size - DISC_PT, Math.max(from + DISC_PT, at));
  for (const { number, regions } of marks)
    for (const region of regions) {
      const corners = region.map(({ xMm, yMm }) => [x(xMm), y(yMm)]);
      document
        .polygon(...corners)
        .lineWidth(2.6)
        .stroke("white");
      document
        .polygon(...corners)
        .lineWidth(0.9)
        .stroke("black");
      const [left, top] = [Math.min(...region.map(({ xMm }) => xMm)), Math.min(...region.map(({ yMm }) => yMm))];
      const [cx, cy] = [inside(x(left), leftPt, widthPt), inside(y(top), topPt, heightPt)];
      document.circle(cx, cy, DISC_PT).lineWidth(1).fillAndStroke("black", "white");
      document.font("bold").fontSize(8).fillColor("white");
      document.text(String(number), cx - DISC_PT, cy - 5.4, { width: 2 * DISC_PT, align: "center", lineBreak: false });
    }
}
