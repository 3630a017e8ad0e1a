import { expect, test } from "vitest";
import { FORMATS, findFormat, formatsFitting } from "#domain/print/format.ts";
import { findProcess } from "#domain/print/process.ts";

const ids = (widthMm: number, heightMm: number) => formatsFitting(widthMm, heightMm).map(({ format }) => format.id);

test("every format is known once, has a size, a source and processes that exist", () => {
  expect(new Set(FORMATS.map(({ id }) => id)).size).toBe(FORMATS.length);
  expect(FORMATS).toHaveLength(56);
  for (const format of FORMATS) {
    expect(format.id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
    expect(format.sheetWidthMm * format.sheetHeightMm, format.id).toBeGreaterThan(0);
    expect(format.toleranceMm, format.id).toBeGreaterThan(0);
    expect(format.source.length, format.id).toBeGreaterThan(5);
    for (const id of format.processIds) expect(findProcess(id), `${format.id}: ${id}`).not.toBeNull();
    if (/from memory/.test(format.source)) expect(format.doubt, format.id).not.toBeNull();
  }
});

test("an image lies inside its sheet, and known borders fill the rest to half a millimetre", () => {
  for (const { id, sheetWidthMm, sheetHeightMm, imageWidthMm, imageHeightMm, ...borders } of FORMATS) {
    if (imageWidthMm !== null) expect(imageWidthMm, id).toBeLessThanOrEqual(sheetWidthMm);
    if (imageHeightMm !== null) expect(imageHeightMm, id).toBeLessThanOrEqual(sheetHeightMm);
    if (imageWidthMm !== null && borders.borderLeftMm !== null && borders.borderRightMm !== null)
      expect(Math.abs(sheetWidthMm - imageWidthMm - borders.borderLeftMm - borders.borderRightMm), id).toBeLessThanOrEqual(0.5);
    if (imageHeightMm !== null && borders.borderTopMm !== null && borders.borderBottomMm !== null)
      expect(Math.abs(sheetHeightMm - imageHeightMm - borders.borderTopMm - borders.borderBottomMm), id).toBeLessThanOrEqual(0.5);
  }
});

test("named sheets follow the rule of their names: n by n + 2 inches up to 10, n + 3 from 11, in whole millimetres", () => {
  for (const short of [6, 8, 10, 11, 12]) {
    const format = findFormat(`sheet-${short}r`);
    expect(format?.sheetWidthMm).toBe(Math.round(short * 25.4));
    expect(format?.sheetHeightMm).toBe(Math.round((short + (short >= 11 ? 3 : 2)) * 25.4));
  }
});

test("the large square integral print keeps the maker's figures, not the rounded square image of most texts", () => {
  expect(findFormat("integral-large-square")).toMatchObject({
    sheetWidthMm: 88.5,
    sheetHeightMm: 107.5,
    imageWidthMm: 78.9,
    imageHeightMm: 76.8,
    turnable: false,
  });
});

test("a format that nobody knows is not found", () => {
  expect(findFormat("unheard-of")).toBeNull();
});

test("the nearest format comes first, within its tolerance only", () => {
  expect(ids(88.6, 107.4)[0]).toBe("integral-large-square");
  expect(ids(89.6, 107.5)).not.toContain("integral-large-square");
  expect(ids(400, 401)).toEqual([]);
});

test("two formats of one size are both shown, so that a person chooses", () => {
  expect(ids(83, 108)).toEqual(expect.arrayContaining(["peel-apart-pack-rectangular", "peel-apart-roll", "quarter-plate"]));
});

test("a sheet may lie unless its pod says where below is", () => {
  const [sheet] = formatsFitting(152, 102);
  expect(sheet).toMatchObject({ format: { id: "sheet-4r" }, turned: true, distanceMm: 0 });
  expect(formatsFitting(102, 152)[0]).toMatchObject({ format: { id: "sheet-4r" }, turned: false });
  expect(ids(107.5, 88.5)).not.toContain("integral-large-square");
});

test("a format without any confirmed size is never proposed", () => {
  expect(findFormat("integral-folding-pocket")).toMatchObject({ sheetWidthMm: 64, sheetHeightMm: 111, matchable: false });
  expect(ids(64, 111)).not.toContain("integral-folding-pocket");
});

test("a carte de visite is found at the sizes that were measured on real ones", () => {
  for (const [width, height] of [
    [64, 102],
    [63, 105],
    [65, 110],
  ] as const)
    expect(ids(width, height)).toContain("carte-de-visite");
  expect(ids(65, 113)).not.toContain("carte-de-visite");
});
