import { expect, test } from "vitest";
import { sidesSeen } from "#domain/measure/geometry/sides-seen.ts";
import { cornersOf } from "#domain/measure/lines.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import { contextOf, drawPicture, poseOf } from "../../../fixtures/pictures.ts";

const PRINT = { widthMm: 44, heightMm: 52, border: { left: 4, right: 4, top: 4, bottom: 4 } } as const;
const PPI = 120;
const WIDTH_PX = (PRINT.widthMm / 25.4) * PPI;

function pair(apartPx: number) {
  const at = (x: number) => ({ ...PRINT, pose: poseOf({ ...PRINT, ppi: PPI, centre: { x, y: 200 } }) });
  return drawPicture({ widthPx: 520, heightPx: 400, bedPxPerMm: 4.7, prints: [at(150), at(150 + WIDTH_PX + apartPx)], seed: 31 });
}

test("two prints that touch are told apart half way between their pictures, in words that ask for the corners", () => {
  const { picture, truths } = pair(0);
  const found = findOutlines(picture, contextOf());
  expect(found).toHaveLength(2);
  found.forEach((outline, index) => {
    const truth = truths[index];
    const away = cornersOf(outline.sheet).map((corner, k) => {
      const drawn = truth && cornersOf(truth.sheet)[k];
      return drawn ? Math.hypot(corner.x - drawn.x, corner.y - drawn.y) : Number.POSITIVE_INFINITY;
    });
    expect(Math.max(...away)).toBeLessThan(3 * outline.cornerSpreadPx);
    expect(outline.sides[index === 0 ? "right" : "left"]).toBe("assumed");
    expect(sidesSeen(picture, outline, contextOf())[0]).toMatchObject({ note: expect.stringContaining("set the corners by hand") });
  });
});

test("two prints with a finger's breadth of ground between them are not said to touch", () => {
  const found = findOutlines(pair(30).picture, contextOf());
  expect(found).toHaveLength(2);
  expect(found.map(({ sides }) => Object.values(sides))).toEqual([Array(4).fill("seen"), Array(4).fill("seen")]);
});
