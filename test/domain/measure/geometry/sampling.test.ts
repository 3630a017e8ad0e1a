import { describe, expect, test } from "vitest";
import { sampling } from "#domain/measure/geometry/sampling.ts";
import type { MeasureContext, Outline } from "#domain/measure/reading.ts";
import { outlineOf, quad } from "../../../fixtures/outlines.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";

/** 100 × 150 mm, known to 0.5 mm. */
const SHEET = { sheetWidthMm: 100, sheetHeightMm: 150, sheetToleranceMm: 0.5 };
/** 400 px to 100 mm are 101.6 ppi. */
const AT_101_6 = quad(50, 50, 450, 650);
const picture = pictureOf(new Uint8Array(500 * 700 * 3), 500, 700);

function read(outline: Outline | null, known: Partial<MeasureContext>) {
  const [ppi, error] = sampling(picture, outline, contextOf(known));
  return { ppi, error };
}

describe("samplingPpi", () => {
  test("is pixels over inches: 400 px along 100 mm are 101.6 ppi", () => {
    expect(read(outlineOf(AT_101_6), SHEET).ppi).toMatchObject({
      value: expect.closeTo(101.6, 9),
      reliability: "firm",
      detail: { ppiX: expect.closeTo(101.6, 9), ppiY: expect.closeTo(101.6, 9), basis: "sheet" },
    });
  });

  test("is the lower of the two directions", () => {
    // 396 px along 100 mm: 100.584 ppi.
    expect(read(outlineOf(quad(50, 50, 446, 650)), SHEET).ppi).toMatchObject({
      value: expect.closeTo(100.584, 9),
      detail: { ppiY: expect.closeTo(101.6, 9) },
    });
  });

  test("passes the tolerance of the size on as one standard uncertainty: 0.5 mm in 100 are 0.5 / √3 per cent (JCGM 100:2008, 4.3.7)", () => {
    expect(read(outlineOf(AT_101_6, { cornerSpreadPx: 0 }), SHEET).ppi).toMatchObject({ spread: expect.closeTo(0.508 / Math.sqrt(3), 6) });
    expect(read(outlineOf(AT_101_6, { cornerSpreadPx: 0 }), { ...SHEET, sheetToleranceMm: 2 }).ppi).toMatchObject({
      spread: expect.closeTo(2.032 / Math.sqrt(3), 6),
      reliability: "fair",
    });
  });

  test("does not mind a print lying on its side", () => {
    expect(read(outlineOf(quad(20, 50, 470, 350)), { ...SHEET, sheetWidthMm: 67.5, sheetHeightMm: 101.25 }).ppi).toMatchObject({
      value: expect.closeTo((450 / 101.25) * 25.4, 6),
    });
  });

  test("goes by the picture where the sheet is not seen whole", () => {
    const sides = { top: "assumed", right: "seen", bottom: "seen", left: "assumed" } as const;
    const outline = outlineOf(quad(30, 30, 470, 670), { sides, image: AT_101_6 });
    expect(
      read(outline, { sheetWidthMm: 110, sheetHeightMm: 160, sheetToleranceMm: 0.5, imageWidthMm: 100, imageHeightMm: 150 }).ppi,
    ).toMatchObject({
      value: expect.closeTo(101.6, 9),
      detail: { basis: "picture" },
    });
  });

  test("of a sheet cut by the frame is read across what is left, when only one way round is possible", () => {
    const sides = { top: "cut-off", right: "seen", bottom: "seen", left: "seen" } as const;
    // 400 px across and 580 px down: the 150 mm cannot lie across, since then 580 px would be 217 mm of a side of 100.
    expect(read(outlineOf(quad(50, -0.5, 450, 579.5), { sides }), SHEET).ppi).toMatchObject({
      value: expect.closeTo(101.6, 9),
      reliability: "fair",
      detail: { ppiY: null, basis: "two opposite sides" },
    });
  });

  test("of a sheet of which too little is left to tell how it lies is a lower bound", () => {
    const sides = { top: "cut-off", right: "seen", bottom: "seen", left: "seen" } as const;
    const { ppi, error } = read(outlineOf(quad(50, -0.5, 450, 199.5), { sides }), { ...SHEET, claimedPpiX: 100, claimedPpiY: 100 });
    expect(ppi).toMatchObject({ value: expect.closeTo((400 / 150) * 25.4, 6), bound: "lower", reliability: "weak" });
    expect(error).toHaveProperty("absent");
  });

  test("of a file cropped to the sheet is fair at best", () => {
    const sides = { top: "assumed", right: "assumed", bottom: "assumed", left: "assumed" } as const;
    const outline = outlineOf(quad(-0.5, -0.5, 499.5, 699.5), { sides });
    expect(read(outline, { sheetWidthMm: 100, sheetHeightMm: 140, sheetToleranceMm: 0.5 }).ppi).toMatchObject({
      value: expect.closeTo(127, 9),
      reliability: "fair",
      note: expect.stringContaining("cropped"),
    });
  });

  test("is weak where the proportions differ a little from the record, and absent where they differ much", () => {
    expect(read(outlineOf(AT_101_6), { ...SHEET, sheetHeightMm: 154 }).ppi).toMatchObject({
      reliability: "weak",
      note: expect.stringContaining("2.6 %"),
    });
    expect(read(outlineOf(AT_101_6), { ...SHEET, sheetHeightMm: 180 }).ppi).toMatchObject({
      absent: expect.stringContaining("proportions"),
    });
  });

  test("is absent, with what to do, where no size is known or no print was found", () => {
    expect(read(outlineOf(AT_101_6), {}).ppi).toMatchObject({ absent: expect.stringContaining("ruler") });
    expect(read(null, SHEET).ppi).toHaveProperty("absent");
  });
});

describe("scale error", () => {
  test("of a file that claims 100 ppi where 101.6 are measured is 1.6 %", () => {
    expect(read(outlineOf(AT_101_6), { ...SHEET, claimedPpiX: 100, claimedPpiY: 100 }).error).toMatchObject({
      value: expect.closeTo(1.6, 9),
      detail: { errorXPercent: expect.closeTo(1.6, 9) },
    });
  });

  test("has no sign, and keeps it in the detail", () => {
    expect(read(outlineOf(AT_101_6), { ...SHEET, claimedPpiX: 127, claimedPpiY: 127 }).error).toMatchObject({
      value: expect.closeTo(20, 9),
      detail: { errorYPercent: expect.closeTo(-20, 9) },
    });
  });

  test("of a habitual 72 ppi is given with a word on what it means", () => {
    expect(read(outlineOf(AT_101_6), { ...SHEET, claimedPpiX: 72, claimedPpiY: 72 }).error).toMatchObject({
      note: expect.stringContaining("do not know"),
    });
  });

  test("is absent where the file claims nothing or the sampling is not known", () => {
    expect(read(outlineOf(AT_101_6), SHEET).error).toHaveProperty("absent");
    expect(read(outlineOf(AT_101_6), { claimedPpiX: 100, claimedPpiY: 100 }).error).toHaveProperty("absent");
  });
});
