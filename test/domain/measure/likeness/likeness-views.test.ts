import { expect, test } from "vitest";
import { makeGrid } from "#domain/measure/laying/print-grid.ts";
import { fingerprintOf } from "#domain/measure/likeness/fingerprint.ts";
import { sameness, verdictOn } from "#domain/measure/likeness/likeness.ts";
import { eachView, likeliestViews, VIEWS, type Views, viewsOf } from "#domain/measure/likeness/likeness-views.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { type GridPlane, resized } from "#domain/measure/planes/grid-plane.ts";
import { captureSheet } from "../../../fixtures/captured-sheet.ts";
import { quad } from "../../../fixtures/outlines.ts";

const SEEDS = [5201, 5202, 5203, 5204, 5205, 5206];
const sheets = SEEDS.map((seed) => captureSheet({ seed, turnDeg: 0, ppi: 120 }));
const known = sheets.map(({ picture, outline, context }) => viewsOf(picture, outline, makeGrid(picture, outline, context)));

/** The capture cut inside its picture: what is left shows no border and no ground. */
function cropped({ picture, truth }: (typeof sheets)[number]) {
  const [left, top] = [Math.ceil(truth.image.topLeft.x) + 3, Math.ceil(truth.image.topLeft.y) + 3];
  const widthPx = Math.floor(truth.image.bottomRight.x) - 3 - left;
  const heightPx = Math.floor(truth.image.bottomRight.y) - 3 - top;
  const codes = new Uint8Array(widthPx * heightPx * 3);
  for (let y = 0; y < heightPx; y++) {
    const from = ((top + y) * picture.widthPx + left) * 3;
    codes.set(picture.codes.subarray(from, from + widthPx * 3), y * widthPx * 3);
  }
  return { ...picture, widthPx, heightPx, codes };
}

/** Which of the known ones are the same by any view of either. */
function same(asked: Views<GridPlane>, among: readonly Views<GridPlane>[]): number[] {
  const likely = likeliestViews(
    eachView(asked, fingerprintOf),
    among.map((views) => eachView(views, fingerprintOf)),
  );
  const found = likely.flatMap(({ index, quarters, view, other }) => {
    const [one, another] = [asked[view], among[index]?.[other]];
    const seen = one && another && sameness(one, another, quarters);
    return seen && verdictOn(seen) === "same" ? [index] : [];
  });
  return [...new Set(found)];
}

test("a sheet seen on all four sides is known by its print alone", () => {
  expect(known.map(({ frame }) => frame)).toEqual(SEEDS.map(() => null));
});

test.each(SEEDS.map((_, index) => index))(
  "with its border cropped away a capture is known among others by its frame, and they by it (print %i)",
  (index) => {
    const picture = cropped(sheets[index] as (typeof sheets)[number]);
    const views = viewsOf(picture, null, null);
    expect(same(views, known)).toEqual([index]);
    expect(same(known[index] as Views<GridPlane>, [views])).toEqual([0]);
  },
);

test("a thing in the picture that was taken for the sheet does not hide the picture", () => {
  const sheet = sheets[2] as (typeof sheets)[number];
  const picture = cropped(sheet);
  const window: Quad = quad(20, 30, 70, 90);
  const outline = { ...sheet.outline, sheet: window, image: null, doubt: "in picture" } as const;
  const views = viewsOf(picture, outline, makeGrid(picture, outline, sheet.context));
  expect(VIEWS.map((view) => views[view] !== null)).toEqual([true, true]);
  expect(same(views, known)).toEqual([2]);
});

test("two prints on one table are not taken for each other by the table", () => {
  const [one, other] = [sheets[0], sheets[1]] as [(typeof sheets)[number], (typeof sheets)[number]];
  const views = [one, other].map(({ picture, outline, context }): Views<GridPlane> => {
    const doubted = { ...outline, doubt: "in picture" } as const;
    return viewsOf(picture, doubted, makeGrid(picture, doubted, context));
  });
  const table = resized(views[0]?.frame as GridPlane, 100, 100);
  const onTable = views.map((each) => ({ ...each, frame: table }));
  expect(same(onTable[0] as Views<GridPlane>, onTable.slice(1))).toEqual([]);
});
