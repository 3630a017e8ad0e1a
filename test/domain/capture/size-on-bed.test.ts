import { expect, test } from "vitest";
import { sizeOnBed } from "#domain/capture/size-on-bed.ts";
import { captureSheet } from "../../fixtures/captured-sheet.ts";
import { outlineOf } from "../../fixtures/outlines.ts";
import { contextOf } from "../../fixtures/pictures.ts";

/** drawn at 200 ppi, 44 × 52 mm */
const { picture, truth } = captureSheet({ seed: 3, turnDeg: 0 });
const outline = outlineOf(truth.sheet);

test("a size that was said gives the sampling", () => {
  const said = contextOf({ sheetWidthMm: 44, sheetHeightMm: 52, claimedPpiX: 300, claimedPpiY: 300 });
  expect(sizeOnBed(picture, outline, said)).toEqual({ widthMm: 44, heightMm: 52, samplingPpi: expect.closeTo(200, 0), from: "said" });
  const turned = sizeOnBed(picture, outline, { ...said, sheetWidthMm: 52, sheetHeightMm: 44 });
  expect(turned).toMatchObject({ widthMm: 44, heightMm: 52 });
});

test("without one, or where it is another print's, the file's claim gives the size: half the claim, twice the millimetres", () => {
  const inMm = (ppi: number) => ({ widthMm: expect.closeTo((44 * 200) / ppi, 0), heightMm: expect.closeTo((52 * 200) / ppi, 0) });
  for (const ppi of [200, 400])
    expect(sizeOnBed(picture, outline, contextOf({ claimedPpiX: ppi, claimedPpiY: ppi }))).toEqual({
      ...inMm(ppi),
      samplingPpi: ppi,
      from: "file",
    });
  const other = contextOf({ sheetWidthMm: 30, sheetHeightMm: 90, claimedPpiX: 200, claimedPpiY: 200 });
  expect(sizeOnBed(picture, outline, other)).toMatchObject({ ...inMm(200), from: "file" });
});

test.each([null, 72, 96])("%s ppi, which devices write that do not know their scale, tell no size", (ppi) => {
  expect(sizeOnBed(picture, outline, contextOf({ claimedPpiX: ppi, claimedPpiY: ppi }))).toBeNull();
});
