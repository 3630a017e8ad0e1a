import { expect, test } from "vitest";
import type { MeasureName } from "#domain/measure/catalogue.ts";
import type { Quad } from "#domain/measure/picture.ts";
import type { Present, Reading } from "#domain/measure/reading.ts";
import { measuredAdvice } from "#domain/recapture/measured-advice.ts";
import type { SeenCapture } from "#domain/recapture/seen-capture.ts";
import { outlineOf, quad } from "../../fixtures/outlines.ts";

const FRAME = { widthPx: 4000, heightPx: 3000 };
const reading = (name: MeasureName, value: number, detail?: Record<string, unknown>): Present => ({
  name,
  value,
  reliability: "firm",
  ...(detail && { detail }),
});

/** A sheet of 90 × 110 mm at 20 px/mm in the middle of the frame. */
function seen(readings: readonly Reading[], more: Partial<SeenCapture> = {}): SeenCapture {
  return {
    isCamera: true,
    frame: FRAME,
    isWholeFrame: true,
    outline: outlineOf(quad(1100, 400, 2900, 2600)),
    readings: [reading("samplingPpi", 20 * 25.4), ...readings],
    areas: new Map(),
    lens: null,
    ...more,
  };
}
const said = (measure: string, of: SeenCapture, short: { required: number; value: number | null } = { required: 0, value: 0 }) =>
  measuredAdvice({ measure, ...short }, of)?.sentence ?? null;

/**
 * A pinhole that looks straight down at a board turned about the frame's horizontal axis: at v mm below the middle the board lies
 * v sin(angle) farther away. Focal length chosen for 20 px/mm in the middle.
 */
function tiltedSheet(degrees: number, distanceMm: number): { sheet: Quad; bottomOverTopPercent: number } {
  const [sin, cos] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
  const at = (u: number, v: number) => {
    const scale = (20 * distanceMm) / (distanceMm + v * sin);
    return { x: 2000 + u * scale, y: 1500 + v * cos * scale };
  };
  const sheet = { topLeft: at(-45, -55), topRight: at(45, -55), bottomRight: at(45, 55), bottomLeft: at(-45, 55) };
  const [top, bottom] = [sheet.topRight.x - sheet.topLeft.x, sheet.bottomRight.x - sheet.bottomLeft.x];
  // the bottom looks shorter: negative, in percent of the shorter, as keystone.ts tells it
  return { sheet, bottomOverTopPercent: bottom >= top ? 100 * (bottom / top - 1) : -100 * (top / bottom - 1) };
}

/** A symmetric lens of 60 mm as it stands at a distance: m = f / (D − f). */
const lensAt = (distanceMm: number, focalLengthMm = 60) => ({
  focalLengthMm,
  magnification: focalLengthMm / (distanceMm - focalLengthMm),
  pupilMagnification: 1,
});

test.each([
  [2, 500],
  [5, 500],
  [9, 500],
  [6.1, 300],
  [20.9, 1000],
])(
  "a board whose lower side sinks by %d° under a lens %d mm away is told that angle, and that the lower side is to be raised",
  (degrees, distanceMm) => {
    const { sheet, bottomOverTopPercent } = tiltedSheet(degrees, distanceMm);
    const keystone = reading("keystonePercent", Math.abs(bottomOverTopPercent), { bottomOverTopPercent, rightOverLeftPercent: 0 });
    const sentence = said("keystonePercent", seen([keystone], { outline: outlineOf(sheet), lens: lensAt(distanceMm) })) ?? "";
    expect(sentence).toContain("The lower side of the print lay");
    expect(sentence).toContain("Raise the lower side");
    expect(sentence).toContain(`the lens being ${distanceMm / 10} cm away`);
    const angle = Number(/\((\d+\.\d)°\)/.exec(sentence)?.[1]);
    // the side's length is taken as it looks, shortened by the cosine
    expect(Math.abs(angle - degrees)).toBeLessThan(0.08 * degrees);
    // 110 mm of board at that angle
    const depthMm = Number(/upper side: (\d+) mm/.exec(sentence)?.[1]);
    expect(Math.abs(depthMm - 110 * Math.sin((degrees * Math.PI) / 180))).toBeLessThan(0.6 + 0.04 * depthMm);
  },
);

test("one keystone of 4 % over 110 mm is 6.1° from 300 mm and 20.9° from 1000 mm, by hand", () => {
  // sin = 0.04 D / (110 · 1.02)
  const keystone = reading("keystonePercent", 4, { bottomOverTopPercent: -4, rightOverLeftPercent: 0 });
  expect(said("keystonePercent", seen([keystone], { lens: lensAt(300) }))).toContain("12 mm (6.1°), the lens being 30 cm away");
  expect(said("keystonePercent", seen([keystone], { lens: lensAt(1000) }))).toContain("39 mm (20.9°), the lens being 100 cm away");
  // the entrance pupil of a lens with P = 0.5 stands f farther off: f (1/m + 2) is 360 mm where the lens is 300 mm away
  const far = { ...lensAt(300), pupilMagnification: 0.5 };
  expect(said("keystonePercent", seen([keystone], { lens: far }))).toContain("14 mm (7.4°), the lens being 36 cm away");
});

test("where the picture's sides were compared, the angle is that over the picture's height, not the sheet's", () => {
  const detail = { bottomOverTopPercent: -4, rightOverLeftPercent: 0, basis: "picture" };
  const image = quad(1200, 800, 2800, 2400);
  const outline = outlineOf(quad(1100, 400, 2900, 2600), { image });
  const of = (more: Partial<SeenCapture>) =>
    said("keystonePercent", seen([reading("keystonePercent", 4, detail)], { lens: lensAt(300), outline, ...more }));
  // 80 mm in place of 110: sin = 0.04 · 300 / (80 · 1.02)
  expect(of({})).toContain("12 mm (8.5°)");
  expect(of({ outline: outlineOf(outline.sheet) })).toContain("12 mm, the lens being");
});

test("without a known distance no angle is told, but how much of each 10 cm of it the tilt is", () => {
  const keystone = reading("keystonePercent", 4, { bottomOverTopPercent: -4, rightOverLeftPercent: 0 });
  const sentence = said("keystonePercent", seen([keystone])) ?? "";
  // 100 · 0.04 / 1.02
  expect(sentence).toContain("4.0 % farther from the lens than the upper side: 3.9 mm for every 10 cm from lens to print.");
  expect(sentence).not.toContain("°");
});

test("the other way round it is the upper side, a tilt to the side names that side, and a scanner is not tilted", () => {
  const tilted = (bottomOverTopPercent: number, rightOverLeftPercent: number) =>
    reading("keystonePercent", 3, { bottomOverTopPercent, rightOverLeftPercent });
  expect(said("keystonePercent", seen([tilted(3, 0)]))).toContain("Raise the upper side");
  const across = said("keystonePercent", seen([tilted(0, 3)])) ?? "";
  expect(across).toContain("Raise the left side");
  expect(across).not.toContain("upper");
  const both = said("keystonePercent", seen([tilted(-2, -3)])) ?? "";
  expect(both.indexOf("right side of the print lay")).toBeLessThan(both.indexOf("lower side of the print lay"));
  expect(said("keystonePercent", seen([tilted(3, 0)], { isCamera: false }))).toBeNull();
  expect(said("keystonePercent", seen([tilted(0.1, 0.1)]))).toBeNull();
});

test("softness on the side that lies farther away asks to raise it, on the nearer to lower it, without tilt it may curl", () => {
  const soft = (degrees: number) => reading("focusFalloffDegrees", degrees);
  const tilted = reading("keystonePercent", 4, { bottomOverTopPercent: -4, rightOverLeftPercent: 0 });
  const lens = lensAt(500);
  expect(said("focusFalloffPercent", seen([soft(95), tilted], { lens }))).toMatch(
    /towards the lower side, which lay 4\.0 % farther .* Raise it by 20 mm \(10\.\d°\)/,
  );
  expect(said("focusFalloffPercent", seen([soft(268), tilted], { lens }))).toMatch(
    /towards the upper side, which lay 4\.0 % nearer .* Lower it by 20 mm/,
  );
  expect(said("focusFalloffPercent", seen([soft(95), tilted]))).toContain("Raise it by 3.9 mm for every 10 cm from lens to print.");
  expect(said("focusFalloffPercent", seen([soft(10)]))).toContain("its right side may curl");
  expect(said("focusFalloffPercent", seen([tilted]))).toBeNull();
});

/** A patch of 4 × 4 mm round a place of the frame, in shares of the frame. */
const shineAt = (xMm: number, yMm: number): SeenCapture["areas"] => {
  const [left, right] = [(2000 + (xMm - 2) * 20) / 4000, (2000 + (xMm + 2) * 20) / 4000];
  const [top, bottom] = [(1500 + (yMm - 2) * 20) / 3000, (1500 + (yMm + 2) * 20) / 3000];
  const loop = [
    { x: left, y: top },
    { x: right, y: top },
    { x: right, y: bottom },
    { x: left, y: bottom },
  ];
  return new Map([["glareAreaPercent", [{ of: "frame", loops: [loop] }]]]);
};

test("a shine shows where the light stands: a lamp 80 mm left and 60 mm up at the height of the lens shines half-way to it", () => {
  // a mirror sends the lamp's ray to a lens of the same height from the middle between both
  const sentence = said("glareAreaPercent", seen([], { areas: shineAt(-40, -30) })) ?? "";
  expect(sentence).toContain("30 mm above and 40 mm to the left of the middle");
  expect(sentence).toContain("100 mm beside the lens if it hangs as high as the lens");
  expect(sentence).toContain("200 mm if it hangs three times as high");
});

test("a shine in the middle is the camera's own light, and nothing is said of a scanner, of a part of a frame, or without a place", () => {
  expect(said("glareAreaPercent", seen([], { areas: shineAt(1, 2) }))).toContain("from its flash");
  expect(said("glareAreaPercent", seen([], { areas: shineAt(-40, -30), isCamera: false }))).toBeNull();
  expect(said("glareAreaPercent", seen([], { areas: shineAt(-40, -30), isWholeFrame: false }))).toBeNull();
  expect(said("glareAreaPercent", seen([]))).toBeNull();
});

test("more sampling is told as the share of the frame to fill, and a camera with more pixels where the frame is too small", () => {
  // 300 of 400 ppi: 1800 px of 4000 become 2400, 2200 of 3000 become 2933
  const tooTall = said("samplingPpi", seen([]), { value: 300, required: 400 });
  expect(tooTall).toContain("This frame of 4000 × 3000 px is too small");
  expect(tooTall).toContain("needs 2600 × 3100 px");
  // three quarters of the distance is what it could be at the nearest, from very far away
  expect(said("samplingPpi", SMALL, { value: 300, required: 400 })).toBe(
    "Bring the lens nearer until the print takes 30 × 49 % of the frame: not nearer than 75 % of its distance from the print.",
  );
  expect(said("samplingPpi", { ...SMALL, outline: null }, { value: 300, required: 400 })).toContain("but not nearer than 75 %");
  expect(said("samplingPpi", { ...SMALL, isCamera: false }, { value: 300, required: 400 })).toBeNull();
  expect(said("samplingPpi", SMALL, { value: null, required: 400 })).toBeNull();
});

/** The sheet as it fills less of the frame: 900 × 1100 px. */
const SMALL = seen([], { outline: outlineOf(quad(1500, 1000, 2400, 2100)) });

test.each([
  // f (1 + 1/m) before, and with m · 392 / 300 after: 81 % and 84 % of it, not 77 %
  { m: 0.25, from: 300, to: 244 },
  { m: 0.5, from: 180, to: 152 },
  // and nearly 77 % from far away
  { m: 0.01, from: 6060, to: 4652 },
])("with a lens of 60 mm at scale $m, 392 instead of 300 ppi is $to mm instead of $from mm", ({ m, from, to }) => {
  const lens = { focalLengthMm: 60, magnification: m, pupilMagnification: 1 };
  expect(said("samplingPpi", { ...SMALL, lens }, { value: 300, required: 392 })).toBe(
    `Bring the lens from about ${from} mm to about ${to} mm above the print: the print then takes 29 × 48 % of the frame.`,
  );
  // by Newton's form of the lens equation: the distance beyond the focal length goes with 1 / m
  expect((to - 60) / (from - 60)).toBeCloseTo(300 / 392, 2);
});

test("a turn is undone the other way, a cut side and the narrowest margin are named", () => {
  expect(said("skewDegrees", seen([reading("skewDegrees", 2.3, { degreesClockwise: 2.3 })]))).toBe(
    "Turn the print by 2.3° anticlockwise as it lies in the frame.",
  );
  expect(said("skewDegrees", seen([reading("skewDegrees", 2.3, { degreesClockwise: -2.3 })]))).toContain("2.3° clockwise");
  const cut = outlineOf(quad(0, 0, 10, 10), { sides: { top: "seen", right: "cut-off", bottom: "seen", left: "seen" } });
  expect(said("sidesSeen", seen([], { outline: cut }))).toBe("The frame cuts the right side.");
  const margins = reading("marginMm", 0.4, { topMm: 3, rightMm: 0.4, bottomMm: 2, leftMm: null });
  expect(said("marginMm", seen([margins]))).toBe("The narrowest margin is 0.4 mm, on the right side.");
});

test("streaks are a strip at its place, rings a place of contact, and light is told by its darkest corner", () => {
  const streaks = [{ line: "down the frame", fromFrameEdgeMm: 23.46, widthMm: 0.3 }];
  expect(said("streakCount", seen([reading("streakCount", 1, { streaks })], { isCamera: false }))).toBe(
    "The strip of glass is dirty 23.5 mm from the left edge of the frame (0.3 mm wide).",
  );
  const rings = reading("ringAreaPercent", 4, { contactMm: { xMm: 31.2, yMm: 17.8 } });
  expect(said("ringAreaPercent", seen([rings]))).toContain("31 mm from the left and 18 mm from the top");
  const corners = { topLeft: 1, topRight: 0.9, bottomRight: 0.6, bottomLeft: 0.7 };
  expect(said("evennessPercent", seen([reading("borderLightnessSpreadPercent", 9, { corners })]))).toContain(
    "The lower right corner gets 60 % of the light of the upper left one.",
  );
  const even = { topLeft: 1, topRight: 1, bottomRight: 0.995, bottomLeft: 1 };
  expect(said("evennessPercent", seen([reading("borderLightnessSpreadPercent", 0, { corners: even })]))).toBeNull();
});

test("where nothing was read, and for a measure of the whole file, nothing is said", () => {
  for (const measure of ["keystonePercent", "focusFalloffPercent", "skewDegrees", "marginMm", "ringAreaPercent", "streakCount", "lossless"])
    expect(said(measure, seen([]))).toBeNull();
});

test.each([
  ["window", "likely", "looks like a window", "curtain"],
  ["window", "possible", "may be a window", "turn the print"],
  ["lamp", "likely", "looks like a lamp", "family of angles"],
  ["long lamp", "likely", "tube", "Switch it off"],
  ["veil", "likely", "something wide", "black cloth"],
  ["window with something dark before it", "likely", "camera or a hand", "black card or cloth round the lens"],
])("a reflection that looks like a %s (%s) is told as what it is, with what helps against it", (looksLike, sure, told, remedy) => {
  const area = reading("glareAreaPercent", 8, { reflections: [{ looksLike, sure, sharePercent: 8 }] });
  for (const measure of ["glareAreaPercent", "glarePeakDeltaL"]) {
    expect(said(measure, seen([area]))).toContain(told);
    expect(said(measure, seen([area]))).toContain(remedy);
  }
});

test("where the shape of a reflection does not tell, and on a scanner, nothing is said of what was mirrored", () => {
  const area = (looksLike: string) => reading("glareAreaPercent", 8, { reflections: [{ looksLike, sure: "possible" }] });
  expect(said("glareAreaPercent", seen([area("not told")]))).toBeNull();
  expect(said("glareAreaPercent", seen([area("window")], { isCamera: false }))).toBeNull();
  expect(said("glareAreaPercent", seen([reading("glareAreaPercent", 8, { reflections: [] })]))).toBeNull();
});
