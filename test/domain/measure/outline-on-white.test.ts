import { expect, test } from "vitest";
import { cornersOf, distanceTo, endsOf, linesOf, SIDES, type Side } from "#domain/measure/lines.ts";
import { findOutlines } from "#domain/measure/outline.ts";
import type { Quad } from "#domain/measure/picture.ts";
import type { Rgb } from "../../fixtures/picture-scenes.ts";
import { contextFor, contextOf, drawPicture, INSTANT, poseOf, type Scene } from "../../fixtures/pictures.ts";

/** Linear light of the drawn lid. */
const LID: Rgb = [0.9, 0.8955, 0.8865];
const PPI = 120;
const PX_PER_MM = PPI / 25.4;

function onLid(paper: Rgb, scene: Partial<Scene> = {}) {
  const print = { ...INSTANT, paper, pose: poseOf({ ...INSTANT, ppi: PPI, centre: { x: 330, y: 345 }, turnDeg: 1.2 }) };
  return drawPicture({ widthPx: 660, heightPx: 720, bedPxPerMm: PX_PER_MM, background: "white-lid", prints: [print], ...scene });
}

const worstMm = (quad: Quad | null | undefined, truth: Quad | undefined) =>
  quad && truth
    ? Math.max(
        ...cornersOf(quad).map((corner, index) =>
          Math.hypot(corner.x - (cornersOf(truth)[index]?.x ?? 0), corner.y - (cornersOf(truth)[index]?.y ?? 0)),
        ),
      ) / PX_PER_MM
    : Number.POSITIVE_INFINITY;

/** How far, at the worse of its ends, a side lies from where it was drawn. */
function awayMm(quad: Quad | undefined, truth: Quad | undefined, side: Side): number {
  if (!quad || !truth) return Number.POSITIVE_INFINITY;
  const line = linesOf(quad)[side];
  return Math.max(...endsOf(truth, side).map((end) => Math.abs(distanceTo(line, end)))) / PX_PER_MM;
}

test("a border one per cent darker than the lid is found on all four sides, within half a millimetre", () => {
  const { picture, truths } = onLid([0.891, 0.8865, 0.878]);
  const [found] = findOutlines(picture, contextFor(INSTANT));
  expect(Object.values(found?.sides ?? {})).toEqual(["seen", "seen", "seen", "seen"]);
  expect(worstMm(found?.sheet, truths[0]?.sheet)).toBeLessThan(0.5);
  expect(worstMm(found?.image, truths[0]?.image)).toBeLessThan(0.1);
});

test("a border of the lid's own colour with a shadow on two sides has these seen, and the others assumed from the sizes", () => {
  const { picture, truths } = onLid(LID, { shadow: { depth: 0.06, widthPx: 3, sides: ["right", "bottom"] } });
  const [found] = findOutlines(picture, contextFor(INSTANT));
  expect(found?.sides).toMatchObject({ right: "seen", bottom: "seen" });
  // Whether the other two stand out is chance; what counts is that the sheet is right.
  expect(worstMm(found?.sheet, truths[0]?.sheet)).toBeLessThan(0.7);
  expect(awayMm(found?.sheet, truths[0]?.sheet, "right")).toBeLessThan(0.5);
  expect(awayMm(found?.sheet, truths[0]?.sheet, "bottom")).toBeLessThan(0.5);
});

test("a border nobody can see is assumed on every side, never claimed as seen; the picture is measured all the same", () => {
  const { picture, truths } = onLid(LID, { ground: LID });
  const [found] = findOutlines(picture, contextFor(INSTANT));
  expect(SIDES.map((side) => found?.sides[side])).toEqual(["assumed", "assumed", "assumed", "assumed"]);
  expect(worstMm(found?.image, truths[0]?.image)).toBeLessThan(0.1);
});

test("without sizes and without a border to be seen, the picture is all that is claimed", () => {
  const { picture, truths } = onLid(LID, { ground: LID });
  const [found] = findOutlines(picture, contextOf());
  expect(worstMm(found?.image, truths[0]?.image)).toBeLessThan(0.1);
  expect(found?.sheet).toEqual(found?.image);
  expect(SIDES.map((side) => found?.sides[side])).toEqual(["assumed", "assumed", "assumed", "assumed"]);
});

test("a print that is known to have no border is its own sheet", () => {
  const size = { widthMm: 89, heightMm: 108 };
  const print = { ...size, pose: poseOf({ ...size, ppi: PPI, centre: { x: 330, y: 345 } }) };
  const { picture, truths } = onLid(LID, { prints: [print] });
  const [found] = findOutlines(picture, contextFor(size));
  expect(found?.image).toBeNull();
  expect(worstMm(found?.sheet, truths[0]?.sheet)).toBeLessThan(0.1);
});

test.each(SIDES)("the %s side is found where its shadow starts, not where the shadow ends", (side) => {
  const { picture, truths } = onLid(LID, { ground: LID, shadow: { depth: 0.1, widthPx: 5, sides: [side] } });
  const [found] = findOutlines(picture, contextFor(INSTANT));
  expect(found?.sides[side]).toBe("seen");
  expect(awayMm(found?.sheet, truths[0]?.sheet, side)).toBeLessThan(0.4);
});
