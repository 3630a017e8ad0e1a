import { readFileSync } from "node:fs";
import { buffer } from "node:stream/consumers";
import { fileURLToPath } from "node:url";
import PDFDocument from "pdfkit";
import { CUT_SIZE_DOUBT_MM, darkHalf, PRINTED_PAGE, RULER } from "#domain/target/printed-page.ts";

const PT_PER_MM = 72 / 25.4;
const A4_WIDTH_MM = 210;
/** Below the words that stand outside the line to cut along. */
const TOP_MM = 40;

const FONT = readFileSync(fileURLToPath(import.meta.resolve("@expo-google-fonts/noto-sans/400Regular/NotoSans_400Regular.ttf")));

const WORDS = [
  "Test target to print: slanted edges and a ruler. Print it in black at its full size (100 %, not “fit to page”) on smooth white paper; the ruler must be 100 mm long.",
  `Cut it along the thin line (180 × 250 mm) and lay it on a dark ground. It proves: resolution, at least as fine as the printed edges; colours that lie apart; evenness over the sheet; scale, as exactly as it was cut (about ${CUT_SIZE_DOUBT_MM} mm). It cannot prove tones and colours: nobody knows those of this paper and ink.`,
];

/** The page to print as a target, A4, in true millimetres, all drawn as lines so that no printer has to guess. */
export async function targetPagePdf(): Promise<Buffer> {
  const { sheet, edges, name } = PRINTED_PAGE;
  const page = new PDFDocument({
    size: "A4",
    margin: 0,
    lang: "en-GB",
    info: { Title: `${name}: slanted edges and ruler` },
    font: FONT as unknown as string,
  });
  const bytes = buffer(page);
  page.fontSize(8.5).text(WORDS.join("\n"), 15 * PT_PER_MM, 8 * PT_PER_MM, { width: 180 * PT_PER_MM });
  page.translate(((A4_WIDTH_MM - sheet.widthMm) / 2) * PT_PER_MM, TOP_MM * PT_PER_MM).scale(PT_PER_MM);
  page.lineWidth(0.1).rect(0, 0, sheet.widthMm, sheet.heightMm).stroke("#888");
  for (const edge of edges) page.polygon(...darkHalf(edge).map(([x, y]): [number, number] => [x, y])).fill("#000");
  drawRuler(page);
  page.end();
  return bytes;
}

function drawRuler(page: PDFKit.PDFDocument): void {
  const { leftMm, topMm, lengthMm } = RULER;
  for (let mm = 0; mm <= lengthMm; mm++) {
    const tickMm = mm % 10 === 0 ? 6 : mm % 5 === 0 ? 4 : 2.5;
    page.moveTo(leftMm + mm, topMm).lineTo(leftMm + mm, topMm + tickMm);
  }
  page.lineWidth(0.15).stroke("#000");
  page.fontSize(3).fill("#000");
  for (let mm = 0; mm <= lengthMm; mm += 10)
    page.text(String(mm), leftMm + mm - 4, topMm + 7, { width: 8, align: "center", lineBreak: false });
}
