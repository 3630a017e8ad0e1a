import { expect, test } from "vitest";
import { lineThrough } from "#domain/measure/lines.ts";
import { doubtedSides } from "#domain/measure/outline/doubted-sides.ts";
import type { EdgeFit } from "#domain/measure/outline/edge-line.ts";
import { quad } from "../../../fixtures/outlines.ts";
import { contextOf } from "../../../fixtures/pictures.ts";

const EDGE: EdgeFit = {
  line: lineThrough({ x: 0, y: 0 }, { x: 1, y: 0 }),
  bowPx: 0,
  sagPx: 0,
  sagSpreadPx: 1,
  share: 1,
  residualPx: 0.3,
  fromSpreadPx: 0.1,
  toSpreadPx: 0.1,
  step: 0.1,
};
const EDGES = { top: EDGE, right: EDGE, bottom: EDGE, left: EDGE };
/** 10 px a mm: a picture of 80 × 60 mm in a sheet of 90 × 70 mm. */
const IMAGE = quad(50, 50, 850, 650);
const SIZES = contextOf({ sheetWidthMm: 90, sheetHeightMm: 70, sheetToleranceMm: 1, imageWidthMm: 80, imageHeightMm: 60 });

test("a faint side that makes the sheet larger than its picture's scale says is doubted, and clear sides are not", () => {
  expect([...doubtedSides({ quad: quad(0, 0, 900, 700), edges: EDGES }, IMAGE, new Set(["bottom"]), SIZES)]).toEqual([]);
  expect([...doubtedSides({ quad: quad(0, 0, 900, 720), edges: EDGES }, IMAGE, new Set(["bottom"]), SIZES)]).toEqual(["bottom"]);
  expect([...doubtedSides({ quad: quad(0, 0, 900, 720), edges: EDGES }, IMAGE, new Set(), SIZES)]).toEqual([]);
});

test("a faint side out of square with the picture by more than half a degree is doubted without any size", () => {
  const leaning = { ...quad(0, 0, 900, 700), bottomRight: { x: 900, y: 712 } };
  expect([...doubtedSides({ quad: leaning, edges: EDGES }, IMAGE, new Set(["top", "bottom"]), contextOf())]).toEqual(["bottom"]);
});
