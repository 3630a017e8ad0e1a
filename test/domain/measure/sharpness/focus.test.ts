import { describe, expect, test } from "vitest";
import { type BlurPlace, DIRECTION, fitBlur, varianceAt } from "#domain/measure/sharpness/blur-surface.ts";
import { focus } from "#domain/measure/sharpness/focus.ts";
import { type CapturedSheet, captureSheet, SMALL } from "../../../fixtures/captured-sheet.ts";
import { moved } from "../../../fixtures/defects/moved.ts";
import { reflected } from "../../../fixtures/defects/reflections.ts";
import { softPlaces } from "../../../fixtures/defects/soft-places.ts";
import { sharpened } from "../../../fixtures/edits.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

const read = ({ picture, outline, context }: CapturedSheet) => focus(picture, outline, context);
/** Blur that captureSheet draws with, 0.6 px at 200 ppi. */
const BASE_MM = (0.6 * 25.4) / 200;
/** Blur that, added to the base, takes the resolution down by this share. */
const addedFor = (share: number) => BASE_MM * Math.sqrt(1 / (1 - share) ** 2 - 1);
const softRight = (share: number) => softPlaces(SMALL, ({ across }) => addedFor(share) * Math.max(0, across));

describe("blur as a surface", () => {
  const along = [-0.7, -0.35, 0, 0.35, 0.7];
  const rim = (variance: (u: number, v: number) => number, extraAcross = 0): BlurPlace[] =>
    along.flatMap((t) => [
      ...([-1, 1] as const).map(
        (u): BlurPlace => ({ u, v: t, direction: "across", of: "sheet", variance: variance(u, t) + extraAcross, spreadShare: 0.04 }),
      ),
      ...([-1, 1] as const).map(
        (v): BlurPlace => ({ u: t, v, direction: "down", of: "sheet", variance: variance(t, v), spreadShare: 0.04 }),
      ),
    ]);

  test("a second-order surface comes back at places that were not read", () => {
    const surface = fitBlur(rim((u, v) => 5 + u - 0.5 * v + 0.3 * u * u + 0.2 * v * v));
    if (!surface) throw new Error("no surface");
    expect(varianceAt(surface.terms, 0.9, 0.9)).toBeCloseTo(5 + 0.9 - 0.45 + 0.243 + 0.162, 1);
    expect(varianceAt(surface.terms, -1, 0)).toBeCloseTo(5 - 1 + 0.3, 1);
  });

  test("what one direction has everywhere is told from what the place has", () => {
    const surface = fitBlur(rim((u) => 5 + u, 2));
    expect(surface?.terms[DIRECTION]).toBeCloseTo(1, 1);
    expect(surface?.terms[1]).toBeCloseTo(1, 1);
  });

  test("one wrong place does not bend it", () => {
    const places = rim((u) => 5 + u);
    const surface = fitBlur(places.map((place, index) => (index === 3 ? { ...place, variance: 40 } : place)));
    expect(surface?.terms[1]).toBeCloseTo(1, 1);
  });

  test("nothing read gives no surface", () => {
    expect(fitBlur([])).toBeNull();
  });
});

describe("focus across the print", () => {
  test("an even capture reads below 5 % without a direction, and says how small a movement would have been seen", () => {
    const readings = read(captureSheet({ seed: 501 }));
    const falloff = presentOf(readings, "focusFalloffPercent");
    expect(falloff.value).toBeLessThan(5);
    expect(falloff.detail?.kind).toBe("even");
    expect(reasonOf(readings, "focusFalloffDegrees")).toContain("too little");
    const motion = presentOf(readings, "motionMm");
    expect(motion.value).toBe(0);
    expect(motion.spread as number).toBeLessThan(0.25);
  });

  test("a tilt reads the drawn share and its direction, the stronger the more", () => {
    const readings = [0.2, 0.4].map((share) => read(captureSheet({ seed: 502, defects: [softRight(share)] })));
    const values = readings.map((each) => presentOf(each, "focusFalloffPercent").value);
    expect(Math.abs((values[0] as number) - 20)).toBeLessThan(5);
    expect(Math.abs((values[1] as number) - 40)).toBeLessThan(5);
    const degrees = presentOf(readings[1] as never, "focusFalloffDegrees").value;
    expect(Math.min(degrees, 360 - degrees)).toBeLessThan(15);
    expect(presentOf(readings[1] as never, "motionMm").value).toBe(0);
  });

  test("a print lying on its side gets softer in the direction as seen", () => {
    const readings = read(captureSheet({ seed: 503, turnDeg: 93, defects: [softRight(0.4)] }));
    expect(Math.abs(presentOf(readings, "focusFalloffDegrees").value - 90)).toBeLessThan(15);
    expect(Math.abs(presentOf(readings, "focusFalloffPercent").value - 40)).toBeLessThan(5);
  });

  test("half the exposure reads the same", () => {
    const [full, half] = [1, 0.5].map((gain) =>
      presentOf(read(captureSheet({ seed: 504, bits: 16, cast: [gain, gain, gain], defects: [softRight(0.3)] })), "focusFalloffPercent"),
    );
    expect(Math.abs((full?.value as number) - (half?.value as number))).toBeLessThan(3);
  });

  test("a curled print has soft corners and no fall-off", () => {
    const curled = softPlaces(SMALL, ({ across, down }) => 0.4 * ((across - 0.5) ** 2 + (down - 0.5) ** 2));
    const falloff = presentOf(read(captureSheet({ seed: 505, defects: [curled] })), "focusFalloffPercent");
    expect(falloff.detail?.kind).toBe("bowl");
    expect(falloff.note).toContain("curled");
    expect(falloff.value).toBeLessThan(5);
  });

  test.each([
    ["across", 0],
    ["down", 90],
  ])("a movement %s the frame reads its length, and is no fall-off", (direction, degrees) => {
    const readings = read(captureSheet({ seed: 506, defects: [moved(0.3, degrees)] }));
    const motion = presentOf(readings, "motionMm");
    expect(Math.abs(motion.value - 0.3)).toBeLessThan(0.06);
    expect(motion).toMatchObject({ detail: { direction } });
    expect(presentOf(readings, "focusFalloffPercent").value).toBeLessThan(5);
    expect(presentOf(readings, "focusFalloffPercent").detail?.kind).toBe("motion");
  });

  test.each([30, 45, 60, 135])(
    "a movement along %d° reads its length and direction by the picture's own detail, never firmly",
    (degrees) => {
      const motion = presentOf(read(captureSheet({ seed: 514, noise: 0.3, defects: [moved(0.3, degrees)] })), "motionMm");
      expect(Math.abs(motion.value - 0.3)).toBeLessThan(0.09);
      expect(Math.abs((motion.detail?.directionDegrees as number) - degrees)).toBeLessThan(15);
      expect(motion.reliability).not.toBe("firm");
    },
  );

  test("a plain picture shows no movement along a diagonal, and of others only the least", () => {
    const plain = { ...SMALL, content: "pale-wall" } as const;
    const readings = (degrees: number) => read(captureSheet({ seed: 515, noise: 0.3, print: plain, defects: [moved(0.3, degrees)] }));
    expect(reasonOf(readings(45), "motionMm")).toContain("along a diagonal");
    expect(presentOf(readings(0), "motionMm")).toMatchObject({ bound: "lower", note: expect.stringContaining("too little fine detail") });
  });

  test("on a white lid only the sides of the picture are left, and the reading is not firm", () => {
    const readings = read(captureSheet({ seed: 507, background: "white-lid", defects: [softRight(0.5)] }));
    const falloff = presentOf(readings, "focusFalloffPercent");
    expect(falloff.reliability).not.toBe("firm");
    expect(Math.abs(falloff.value - 50)).toBeLessThan(15);
  });

  test("a tilt with the focus in the middle is soft towards two sides", () => {
    const valley = softPlaces(SMALL, ({ across }) => 0.2 * Math.abs(across - 0.5));
    const falloff = presentOf(read(captureSheet({ seed: 510, defects: [valley] })), "focusFalloffPercent");
    expect(falloff.detail?.kind).toBe("bowl");
    expect(falloff.note).toContain("two opposite sides");
  });

  test("a middle that bulges is soft inside, though all its edges are sharp", () => {
    const bulging = softPlaces(SMALL, ({ across, down }) => 0.15 * Math.max(0, 1 - 2.2 * Math.hypot(across - 0.5, down - 0.5)));
    const falloff = presentOf(read(captureSheet({ seed: 516, defects: [bulging] })), "focusFalloffPercent");
    expect(falloff.detail?.kind).toBe("dome");
    expect(falloff.note).toContain("middle is softer");
    expect(falloff.value).toBeLessThan(5);
    const tiles = falloff.detail?.tiles as { across: number; down: number; sfr50CyPerMm: number }[];
    const near = tiles.filter(({ across, down }) => Math.hypot(across - 0.5, down - 0.5) < 0.15).map(({ sfr50CyPerMm }) => sfr50CyPerMm);
    const far = tiles.filter(({ across, down }) => Math.hypot(across - 0.5, down - 0.5) > 0.35).map(({ sfr50CyPerMm }) => sfr50CyPerMm);
    expect(Math.max(...near)).toBeLessThan(Math.min(...far) + 1);
  });

  const BLIND = { image: null, sides: { top: "cut-off", right: "cut-off", bottom: "cut-off", left: "cut-off" } } as const;

  test.each([
    [0, softRight(0.6)],
    [90, softPlaces(SMALL, ({ down }) => addedFor(0.6) * Math.max(0, down))],
  ])("without a readable edge a strong fall-off towards %d° is a hint by the picture's own detail", (degrees, defect) => {
    const sheet = captureSheet({ seed: 517, defects: [defect] });
    const readings = focus(sheet.picture, { ...sheet.outline, ...BLIND }, sheet.context);
    const falloff = presentOf(readings, "focusFalloffPercent");
    expect(falloff).toMatchObject({
      reliability: "weak",
      detail: { kind: "tilt", from: "picture" },
      note: expect.stringContaining("own detail"),
    });
    expect(Math.abs(falloff.value - 60)).toBeLessThan(3 * (falloff.spread as number));
    expect(Math.abs(((presentOf(readings, "focusFalloffDegrees").value - degrees + 540) % 360) - 180)).toBeLessThan(30);
    expect(reasonOf(readings, "motionMm")).toContain("of 4 sides");
  });

  test("without a readable edge an even capture tells no fall-off, nor does a plain or a noisy picture, with its reason", () => {
    const blind = (options: Parameters<typeof captureSheet>[0]) => {
      const sheet = captureSheet(options);
      return focus(sheet.picture, { ...sheet.outline, ...BLIND }, sheet.context);
    };
    expect(reasonOf(blind({ seed: 518 }), "focusFalloffPercent")).toContain("may be soft of itself");
    expect(reasonOf(blind({ seed: 519, print: { ...SMALL, content: "pale-wall" } }), "focusFalloffPercent")).toContain(
      "too plain or too noisy",
    );
    expect(reasonOf(blind({ seed: 520, noise: 6, defects: [softRight(0.6)] }), "focusFalloffPercent")).toContain("too plain or too noisy");
  });

  test("edges cut off at white are not read", () => {
    const readings = read(captureSheet({ seed: 511, cast: [1.6, 1.6, 1.6], defects: [softRight(0.4)] }));
    expect(reasonOf(readings, "motionMm")).toContain("of 4 sides");
  });

  test("glare across an edge is no fall-off", () => {
    const window = { shape: "window", xMm: 22, yMm: 5, widthMm: 21, heightMm: 11, turnDeg: 12, peak: 0.4 } as const;
    const falloff = presentOf(read(captureSheet({ seed: 512, defects: [reflected([window])] })), "focusFalloffPercent");
    expect(falloff.value).toBeLessThan(5);
  });

  test("a sharpened file is read, but not firmly", () => {
    const sheet = captureSheet({ seed: 513, defects: [softRight(0.4)] });
    expect(presentOf(read(sheet), "focusFalloffPercent").reliability).toBe("firm");
    const afterwards = read({ ...sheet, picture: sharpened(sheet.picture, 1.5) });
    expect(presentOf(afterwards, "focusFalloffPercent").reliability).toBe("fair");
  });

  test("without a size the fall-off is read and the movement is not", () => {
    const readings = read(captureSheet({ seed: 508, defects: [softRight(0.4)], known: { sheetWidthMm: null, sheetHeightMm: null } }));
    expect(Math.abs(presentOf(readings, "focusFalloffPercent").value - 40)).toBeLessThan(5);
    expect(reasonOf(readings, "motionMm")).toContain("size is not known");
  });

  test("with two sides of the sheet cut off and no picture edge there is not enough to read", () => {
    const sheet = captureSheet({ seed: 509 });
    const sides = { top: "seen", right: "cut-off", bottom: "cut-off", left: "seen" } as const;
    const readings = focus(sheet.picture, { ...sheet.outline, image: null, sides }, sheet.context);
    expect(reasonOf(readings, "focusFalloffPercent")).toContain("2 of 4 sides");
    for (const reading of focus(sheet.picture, null, sheet.context)) expect(reading).toHaveProperty("absent");
  });
});
