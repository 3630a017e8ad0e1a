import { expect, test } from "vitest";
import { cornersOf } from "#domain/measure/lines.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { contextOf, drawPicture, poseOf } from "../../../fixtures/pictures.ts";

// Places are those drawn: no other source is needed.
const PPI = 60;
const PX_PER_MM = PPI / 25.4;
type Laid = {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly leftMm: number;
  readonly topMm: number;
  readonly turnDeg?: number;
};

/** A bed of 225 × 225 mm with prints without border on it. */
function bed(laid: readonly Laid[], ground: readonly [number, number, number], seed: number) {
  const prints = laid.map(({ widthMm, heightMm, leftMm, topMm, turnDeg = 0.4 }) => {
    const centre = { x: (leftMm + widthMm / 2) * PX_PER_MM, y: (topMm + heightMm / 2) * PX_PER_MM };
    const size = { widthMm, heightMm, border: { left: 0, top: 0, right: 0, bottom: 0 } };
    return { ...size, pose: poseOf({ ...size, ppi: PPI, centre, turnDeg }) };
  });
  return drawPicture({ widthPx: 532, heightPx: 532, prints, ground, seed });
}

const awayPx = (quad: Quad, drawn: Quad) =>
  Math.max(...cornersOf(quad).map(({ x, y }, k) => Math.hypot(x - (cornersOf(drawn)[k]?.x ?? 0), y - (cornersOf(drawn)[k]?.y ?? 0))));

const farthestPx = ({ picture, truths }: ReturnType<typeof bed>) => {
  const found = findOutlines(picture, contextOf());
  return truths.map(({ sheet }) => Math.min(...found.map((outline) => awayPx(outline.sheet, sheet))));
};

test.each([11, 12])("prints without border are found one by one on a dark lid, three millimetres apart (seed %i)", (seed) => {
  const laid = [
    { widthMm: 64, heightMm: 89, leftMm: 8, topMm: 8 },
    { widthMm: 120, heightMm: 60, leftMm: 75, topMm: 8 },
    { widthMm: 120, heightMm: 80, leftMm: 75, topMm: 71 },
  ];
  for (const away of farthestPx(bed(laid, [0.012, 0.012, 0.012], seed))) expect(away).toBeLessThan(2);
});

test.each([21, 22])("the edge of a neighbour is never taken for the lost border of a print on a white lid (seed %i)", (seed) => {
  const laid = [
    { widthMm: 80, heightMm: 110, leftMm: 10, topMm: 10 },
    { widthMm: 90, heightMm: 64, leftMm: 104, topMm: 14, turnDeg: -0.6 },
    { widthMm: 100, heightMm: 70, leftMm: 100, topMm: 94, turnDeg: 0.8 },
  ];
  const { picture, truths } = bed(laid, [0.86, 0.86, 0.86], seed);
  const found = findOutlines(picture, contextOf());
  expect(found).toHaveLength(truths.length);
  for (const { sheet, cornerSpreadPx } of found) {
    const away = Math.min(...truths.map((truth) => awayPx(sheet, truth.sheet)));
    expect(away).toBeLessThan(Math.max(2, 3 * cornerSpreadPx));
  }
});
