import { expect, test } from "vitest";
import { project } from "#domain/measure/homography.ts";
import { cornersOf, distanceTo, endsOf, linesOf, SIDES, type Side } from "#domain/measure/lines.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import type { Quad } from "#domain/measure/picture.ts";
import type { Rgb } from "../../../fixtures/picture-scenes.ts";
import { contextFor, contextOf, type Defect, drawPicture, INSTANT, poseOf, type Scene } from "../../../fixtures/pictures.ts";

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

/** The shadow of a sheet that lies a little hollow, under light from the top left: all round, and moved by 0.4 and 0.6 mm. */
const fallenShadow: Defect = ({ widthPx, rgb, prints }) => {
  for (let at = 0; at < rgb.length; at += 3) {
    const place = prints[0] && project(prints[0].toMm, (at / 3) % widthPx, Math.floor(at / 3 / widthPx));
    if (!place) return;
    const [x, y] = [place.x / INSTANT.widthMm, place.y / INSTANT.heightMm];
    if (x > 0 && x < 1 && y > 0 && y < 1) continue;
    const beyond = (mm: number, lengthMm: number) => Math.max(0, -mm, mm - lengthMm);
    const awayMm = Math.hypot(beyond(place.x - 0.4, INSTANT.widthMm), beyond(place.y - 0.6, INSTANT.heightMm));
    for (let channel = 0; channel < 3; channel++) rgb[at + channel] = (rgb[at + channel] as number) * (1 - 0.5 * Math.exp(-awayMm / 1.5));
  }
};

// common practice, no source: the corners are those that were drawn
test("a sheet with a broad shadow all round ends where its paper ends, not where the shadow does", () => {
  const { picture, truths } = onLid([0.85, 0.845, 0.83], { defects: [fallenShadow] });
  const [found] = findOutlines(picture, contextOf({ sheetWidthMm: INSTANT.widthMm, sheetHeightMm: INSTANT.heightMm }));
  expect(worstMm(found?.sheet, truths[0]?.sheet)).toBeLessThan(Math.min(0.3, (3 * (found?.cornerSpreadPx ?? 0)) / PX_PER_MM));
  expect(worstMm(found?.image, truths[0]?.image)).toBeLessThan(0.1);
});

test("a picture whose proportions are nearly those of its sheet is not taken for it where its border is of the lid's own colour", () => {
  const nearly = { widthMm: 88, heightMm: 108, border: { left: 4.6, right: 4.6, top: 5, bottom: 5 }, paper: LID };
  const print = { ...nearly, pose: poseOf({ ...nearly, ppi: PPI, centre: { x: 330, y: 345 }, turnDeg: 1.2 }) };
  const scene = { widthPx: 660, heightPx: 720, bedPxPerMm: PX_PER_MM, background: "white-lid", ground: LID, prints: [print] } as const;
  const { picture, truths } = drawPicture(scene);
  const [found] = findOutlines(picture, contextOf({ sheetWidthMm: 88, sheetHeightMm: 108 }));
  expect(Object.values(found?.sides ?? {})).not.toContain("seen");
  expect(worstMm(found?.image, truths[0]?.image)).toBeLessThan(0.1);
  expect(worstMm(found?.sheet, truths[0]?.sheet)).toBeLessThan((3 * (found?.cornerSpreadPx ?? 0)) / PX_PER_MM);
});
