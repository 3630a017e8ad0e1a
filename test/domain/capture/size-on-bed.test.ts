import { expect, test } from "vitest";
import { sizeAsClaimed, sizeAsSaid } from "#domain/capture/size-on-bed.ts";
import { captureSheet } from "../../fixtures/captured-sheet.ts";
import { outlineOf } from "../../fixtures/outlines.ts";
import { contextOf } from "../../fixtures/pictures.ts";

/** drawn at 200 ppi, 44 × 52 mm */
const { picture, truth } = captureSheet({ seed: 3, turnDeg: 0 });
const outline = outlineOf(truth.sheet);

test("a size that was said gives the sampling, whichever way round it was said, whatever the file claims", () => {
  const said = contextOf({ sheetWidthMm: 44, sheetHeightMm: 52, claimedPpiX: 300, claimedPpiY: 300 });
  expect(sizeAsSaid(picture, outline, said)).toEqual({ widthMm: 44, heightMm: 52, samplingPpi: expect.closeTo(200, 0) });
  expect(sizeAsSaid(picture, outline, { ...said, sheetWidthMm: 52, sheetHeightMm: 44 })).toMatchObject({ widthMm: 44, heightMm: 52 });
});

test("none was said where nobody said it, and where it is another print's", () => {
  expect(sizeAsSaid(picture, outline, contextOf())).toBeNull();
  expect(sizeAsSaid(picture, outline, contextOf({ sheetWidthMm: 30, sheetHeightMm: 90 }))).toBeNull();
});

test("the file's claim gives a size: twice the claim, half the millimetres", () => {
  for (const ppi of [200, 400])
    expect(sizeAsClaimed(outline, contextOf({ claimedPpiX: ppi, claimedPpiY: ppi }))).toEqual({
      widthMm: expect.closeTo((44 * 200) / ppi, 0),
      heightMm: expect.closeTo((52 * 200) / ppi, 0),
      samplingPpi: ppi,
    });
});

test.each([null, 72, 96])("%s ppi, which devices write that do not know their scale, tell no size", (ppi) => {
  expect(sizeAsClaimed(outline, contextOf({ claimedPpiX: ppi, claimedPpiY: ppi }))).toBeNull();
});
