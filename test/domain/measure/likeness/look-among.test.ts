import { expect, test } from "vitest";
import { verdictOn } from "#domain/measure/likeness/likeness.ts";
import { lookAmong } from "#domain/measure/likeness/look-among.ts";
import type { GridPlane } from "#domain/measure/planes/grid-plane.ts";
import { type DrawnGrid, drawGrid } from "../../../fixtures/print-grids.ts";

const picture = (options: DrawnGrid): GridPlane => {
  const { widthPx, heightPx, data } = drawGrid({ pxPerMm: 3, ...options });
  return { width: widthPx, height: heightPx, data };
};

const ASKED = picture({ seed: 4301 });
const SAME = picture({ seed: 4301, gamma: 0.8, offMm: { x: 0.4, y: 0.2 } });
const OTHER = picture({ seed: 4302 });

type Looked = { readonly of: string; readonly quarters: number; readonly plane: GridPlane | null };
const looks = async (candidates: readonly Looked[], most?: number) => {
  const found = await lookAmong(candidates, async ({ plane }) => plane && [ASKED, plane], most);
  return found.map((each) => each && verdictOn(each));
};

test("the same is told in the order of what was looked at, and what merely lies there is not", async () => {
  expect(await looks([OTHER, SAME].map((plane, index) => ({ of: `${index}`, quarters: 0, plane })))).toEqual([null, "same"]);
});

test("once one capture of a print is the same, no other of that print is looked at, and another print still is", async () => {
  const found = await looks([
    { of: "first", quarters: 0, plane: SAME },
    { of: "first", quarters: 0, plane: picture({ seed: 4301, blurPx: 1.5, noise: 2, gamma: 1.4 }) },
    { of: "copy from the same negative", quarters: 0, plane: picture({ seed: 4301, gamma: 1.3 }) },
  ]);
  expect(found.filter((verdict) => verdict === "same")).toHaveLength(2);
  expect(found[2]).toBe("same");
});

test("no more are looked at closely than asked for", async () => {
  const twenty = Array.from({ length: 20 }, (_, index) => ({ of: `${index}`, quarters: 0, plane: SAME }));
  expect((await looks(twenty)).filter((verdict) => verdict === "same")).toHaveLength(6);
  expect((await looks(twenty, 3)).filter((verdict) => verdict === "same")).toHaveLength(3);
});

test("a picture that is gone is passed over", async () => {
  expect(await looks([{ of: "gone", quarters: 0, plane: null }])).toEqual([null]);
});
