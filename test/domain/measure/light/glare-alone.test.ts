import { expect, test } from "vitest";
import { glareAlone } from "#domain/measure/light/glare-alone.ts";
import { captureSheet, SMALL } from "../../../fixtures/captured-sheet.ts";
import { reflected } from "../../../fixtures/defects/reflections.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../../fixtures/readings.ts";

type Place = { left: number; top: number; width: number; height: number; mm: { width: number } | null };

test("a strong broad shine inside a dark picture is pointed at, always as a weak hint", () => {
  const night = { ...SMALL, content: "night" as const };
  const lobe = { x: 250, y: 260, sigmaPx: 45, peak: 0.5 };
  const { picture, outline, context } = captureSheet({ print: night, glare: [lobe], seed: 81 });
  const read = presentOf(glareAlone(picture, outline, context), "glareAreaPercent");
  expect(read.reliability).toBe("weak");
  expect(read.value).toBeGreaterThan((3 * 34 * 38) / (44 * 52));
  const place = (read.detail?.places as readonly Place[] | undefined)?.[0];
  if (!place) throw new Error("no place");
  const centre = { x: place.left + place.width / 2, y: place.top + place.height / 2 };
  expect(Math.hypot(centre.x - 0.48, centre.y - 0.5)).toBeLessThan(0.2);
  expect(place.mm?.width).toBeCloseTo(place.width * 34, 6);
});

test("the same picture without the shine is not pointed at", () => {
  const { picture, outline, context } = captureSheet({ print: { ...SMALL, content: "night" }, seed: 81 });
  expect(presentOf(glareAlone(picture, outline, context), "glareAreaPercent").value).toBeLessThan(1);
});

test("a coloured bright area is not taken for glare", () => {
  const codes = new Uint8Array(300 * 300 * 3).fill(40);
  const paint = (colour: readonly number[]) => {
    for (let y = 100; y < 180; y++) for (let x = 100; x < 180; x++) codes.set(colour, (y * 300 + x) * 3);
    return pictureOf(
      Uint8Array.from(codes, (code, at) => code + ((at * 7919) % 5)),
      300,
      300,
    );
  };
  const corner = (x: number, y: number) => ({ x, y });
  const sheet = { topLeft: corner(0, 0), topRight: corner(299, 0), bottomRight: corner(299, 299), bottomLeft: corner(0, 299) };
  const sides = { top: "seen", right: "seen", bottom: "seen", left: "seen" } as const;
  const outline = { sheet, image: null, cornerSpreadPx: 0.3, sides };
  const read = (colour: readonly number[]) => presentOf(glareAlone(paint(colour), outline, contextOf()), "glareAreaPercent").value;
  expect(read([240, 120, 120])).toBe(0);
  expect(read([235, 235, 235])).toBeGreaterThan(4);
});

test("without an outline and on a tiny picture it is absent", () => {
  const { picture, outline, context } = captureSheet({ ppi: 60 });
  expect(reasonOf(glareAlone(picture, null, context), "glareAreaPercent")).toContain("not found");
  expect(reasonOf(glareAlone(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), outline, contextOf()), "glareAreaPercent")).not.toBe("");
  const point = { x: 0, y: 0 };
  const nothing = { ...outline, sheet: { topLeft: point, topRight: point, bottomRight: point, bottomLeft: point }, image: null };
  expect(reasonOf(glareAlone(picture, nothing, context), "glareAreaPercent")).not.toBe("");
});

/** 12 × 6 mm of a print of 44 × 52 mm: 3.15 % of it. */
const WINDOW = { shape: "window", xMm: 22, yMm: 24, widthMm: 12, heightMm: 6, turnDeg: 15, peak: 1.2 } as const;
const WINDOW_PERCENT = (100 * 12 * 6) / (44 * 52);

const readAlone = (options: Parameters<typeof captureSheet>[0]) => {
  const { picture, outline, context } = captureSheet(options);
  return glareAlone(picture, outline, context);
};

test.each(["scene", "pale-wall", "night"] as const)("a mirrored window brighter than paper is sure to shine, over a %s", (content) => {
  const readings = readAlone({ print: { ...SMALL, content }, defects: [reflected([WINDOW])], seed: 811 });
  const area = presentOf(readings, "glareAreaPercent");
  expect(area).toMatchObject({ reliability: "fair", bound: "lower" });
  expect(Math.abs(area.value / WINDOW_PERCENT - 1)).toBeLessThan(0.15);
  const paper = 0.2126 * 0.8 + 0.7152 * 0.79 + 0.0722 * 0.75;
  expect(presentOf(readings, "glarePeakDeltaL").value).toBeCloseTo(100 - (116 * Math.cbrt(paper) - 16), 0);
});

test("a white patch of the picture itself, as bright as its paper, is no more than a hint", () => {
  const paper = { ...WINDOW, peak: 0.72 };
  const readings = readAlone({ print: { ...SMALL, content: "night" }, defects: [reflected([paper])], seed: 812 });
  expect(presentOf(readings, "glareAreaPercent").reliability).toBe("weak");
  expect(presentOf(readings, "glarePeakDeltaL").value).toBe(0);
});

test("a shine that goes on from the border counts in the picture too, though it is darker than paper there", () => {
  const across = { ...WINDOW, yMm: 5, heightMm: 9, turnDeg: 0, peak: 0.4 };
  const readings = readAlone({ print: { ...SMALL, content: "night" }, defects: [reflected([across])], seed: 813 });
  const area = presentOf(readings, "glareAreaPercent");
  // 12 × 9 mm, of which the strips beside the edges of sheet and picture are not read.
  expect(area.value).toBeGreaterThan((60 * 12 * 9) / (44 * 52));
  expect(area.value).toBeLessThan((105 * 12 * 9) / (44 * 52));
  expect(area.reliability).toBe("fair");
  expect(presentOf(readings, "glarePeakDeltaL").reliability).toBe("firm");
});

test.each([
  ["scene", 831],
  ["scene", 832],
  ["night", 833],
] as const)("a window over the border of a %s (print %d) is followed into the picture, and not beyond its end", (content, seed) => {
  // 16 × 12 mm, of which the strips beside the edges of sheet and picture are not read
  const across = { ...WINDOW, yMm: 7, widthMm: 16, heightMm: 12, turnDeg: 8, peak: 0.4 };
  const area = presentOf(readAlone({ print: { ...SMALL, content }, defects: [reflected([across])], seed }), "glareAreaPercent");
  const whole = (100 * 16 * 12) / (44 * 52);
  expect(area.value).toBeGreaterThan(0.65 * whole);
  expect(area.value).toBeLessThan(1.05 * whole);
});

test("a picture as bright as the light on its border is not taken for shine that goes on", () => {
  const spot = { ...WINDOW, yMm: 4, heightMm: 6, turnDeg: 0, peak: 0.2 };
  const area = presentOf(
    readAlone({ print: { ...SMALL, content: "pale-wall" }, defects: [reflected([spot])], seed: 834 }),
    "glareAreaPercent",
  );
  expect(area.value).toBeLessThan((100 * 12 * 6) / (44 * 52));
});

test("a print on a mount darker than its own whites does not shine for that", () => {
  const mounted = { ...SMALL, paper: [0.35, 0.33, 0.28] as [number, number, number], content: "pale-wall" as const };
  const area = presentOf(readAlone({ print: mounted, seed: 814 }), "glareAreaPercent");
  expect(area.reliability).toBe("weak");
});

test("bright skies along the rim do not become sure by a small shine somewhere on the border", () => {
  const spot = { shape: "lamp", xMm: 6, yMm: 2.5, widthMm: 1.6, heightMm: 1.6, peak: 0.3 } as const;
  const sky = { shape: "window", xMm: 22, yMm: 10, widthMm: 34, heightMm: 10, peak: 0.4 } as const;
  const inPicture = ({ xMm, yMm }: { xMm: number; yMm: number }) => xMm > 5 && yMm > 5;
  expect(inPicture(spot)).toBe(false);
  const readings = readAlone({ print: { ...SMALL, content: "night" }, defects: [reflected([spot, { ...sky, yMm: 10.6 }])], seed: 815 });
  expect(presentOf(readings, "glareAreaPercent").value).toBeLessThan(1);
});

test("without a border there is no peak, and the reason says what would tell", () => {
  const { picture, outline, context } = captureSheet({ print: { widthMm: 44, heightMm: 52, content: "night" }, seed: 816 });
  expect(reasonOf(glareAlone(picture, { ...outline, image: null }, context), "glarePeakDeltaL")).toContain("another capture");
});
