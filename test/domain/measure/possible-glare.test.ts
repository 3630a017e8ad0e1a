import { expect, test } from "vitest";
import { possibleGlare } from "#domain/measure/possible-glare.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { contextOf, pictureOf } from "../../fixtures/pictures.ts";
import { presentOf, reasonOf } from "../../fixtures/readings.ts";

type Place = { left: number; top: number; width: number; height: number; mm: { width: number } | null };

test("a strong broad shine inside a dark picture is pointed at, always as a weak hint", () => {
  const night = { ...SMALL, content: "night" as const };
  const lobe = { x: 250, y: 260, sigmaPx: 45, peak: 0.5 };
  const { picture, outline, context } = captureSheet({ print: night, glare: [lobe], seed: 81 });
  const read = presentOf(possibleGlare(picture, outline, context), "glareAreaPercent");
  expect(read.reliability).toBe("weak");
  expect(read.value).toBeGreaterThan(3);
  const place = (read.detail?.places as readonly Place[] | undefined)?.[0];
  if (!place) throw new Error("no place");
  const centre = { x: place.left + place.width / 2, y: place.top + place.height / 2 };
  expect(Math.hypot(centre.x - 0.48, centre.y - 0.5)).toBeLessThan(0.2);
  expect(place.mm?.width).toBeCloseTo(place.width * 34, 6);
});

test("the same picture without the shine is not pointed at", () => {
  const { picture, outline, context } = captureSheet({ print: { ...SMALL, content: "night" }, seed: 81 });
  expect(presentOf(possibleGlare(picture, outline, context), "glareAreaPercent").value).toBeLessThan(1);
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
  const read = (colour: readonly number[]) => presentOf(possibleGlare(paint(colour), outline, contextOf()), "glareAreaPercent").value;
  expect(read([240, 120, 120])).toBe(0);
  expect(read([235, 235, 235])).toBeGreaterThan(4);
});

test("without an outline and on a tiny picture it is absent", () => {
  const { picture, outline, context } = captureSheet({ ppi: 60 });
  expect(reasonOf(possibleGlare(picture, null, context), "glareAreaPercent")).toContain("not found");
  expect(reasonOf(possibleGlare(pictureOf(Uint8Array.of(1, 2, 3), 1, 1), outline, contextOf()), "glareAreaPercent")).not.toBe("");
  const point = { x: 0, y: 0 };
  const nothing = { ...outline, sheet: { topLeft: point, topRight: point, bottomRight: point, bottomLeft: point }, image: null };
  expect(reasonOf(possibleGlare(picture, nothing, context), "glareAreaPercent")).not.toBe("");
});
