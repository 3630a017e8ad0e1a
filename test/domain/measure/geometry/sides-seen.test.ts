import { expect, test } from "vitest";
import { sidesSeen } from "#domain/measure/geometry/sides-seen.ts";
import type { Outline } from "#domain/measure/reading.ts";
import { findFormat } from "#domain/print/format.ts";
import { outlineOf, quad } from "../../../fixtures/outlines.ts";
import { contextOf, pictureOf } from "../../../fixtures/pictures.ts";

const picture = pictureOf(new Uint8Array(200 * 300 * 3), 200, 300);
const read = (outline: Outline | null, known = {}) => sidesSeen(picture, outline, contextOf(known))[0];

test("four sides inside the frame are four", () => {
  expect(read(outlineOf(quad(20, 20, 180, 280)))).toMatchObject({ value: 4, reliability: "firm" });
});

test("a sheet that runs out at the top has one whole side left: the bottom", () => {
  const outline = outlineOf(quad(20, -0.5, 180, 280), { sides: { top: "cut-off", right: "seen", bottom: "seen", left: "seen" } });
  expect(read(outline)).toMatchObject({ value: 1, detail: { top: "cut off", right: "cut off", bottom: "whole", left: "cut off" } });
});

test("a corner outside the frame takes both its sides away", () => {
  const sheet = { topLeft: { x: 30, y: 10 }, topRight: { x: 190, y: 40 }, bottomRight: { x: 160, y: 260 }, bottomLeft: { x: -12, y: 230 } };
  const outline = outlineOf(sheet, { sides: { top: "seen", right: "seen", bottom: "cut-off", left: "cut-off" } });
  expect(read(outline)).toMatchObject({ value: 2 });
});

test("assumed sides count where they fall inside, and are not firm", () => {
  const sides = { top: "assumed", right: "seen", bottom: "seen", left: "assumed" } as const;
  expect(read(outlineOf(quad(20, 20, 180, 280), { sides }))).toMatchObject({ value: 4, reliability: "fair" });
  expect(read(outlineOf(quad(-8, 20, 180, 280), { sides })), "a left side assumed outside the frame").toMatchObject({ value: 1 });
});

test("a side that was seen but is doubted is told so, not as one that was not seen", () => {
  const sides = { top: "assumed", right: "seen", bottom: "seen", left: "assumed" } as const;
  const [doubted, both] = [
    read(outlineOf(quad(20, 20, 180, 280), { sides, doubted: ["top", "left"] })),
    read(outlineOf(quad(20, 20, 180, 280), { sides, doubted: ["top"] })),
  ];
  expect(doubted).toMatchObject({ value: 4, reliability: "fair", detail: { top: "doubted", right: "whole", left: "doubted" } });
  expect(doubted).toHaveProperty("note", expect.stringMatching(/^Along some sides an edge is seen/));
  expect(both).toHaveProperty("note", expect.stringMatching(/do not stand out from the ground.*Along some sides an edge is seen/));
});

test("where no side stands out it is said that four of four rest on what is assumed", () => {
  const sides = { top: "assumed", right: "assumed", bottom: "assumed", left: "assumed" } as const;
  expect(read(outlineOf(quad(20, 20, 180, 280), { sides }))).toMatchObject({
    value: 4,
    reliability: "weak",
    note: expect.stringMatching(/^No side stands out/),
  });
});

test("four sides whose proportions are not those of the sheet in the record are a hint only, and what to look at is said", () => {
  const outline = outlineOf(quad(20, 20, 170, 245));
  expect(read(outline, { sheetWidthMm: 100, sheetHeightMm: 147 })).toMatchObject({ value: 4, reliability: "firm" });
  expect(read(outline, { sheetWidthMm: 147, sheetHeightMm: 100 }), "lying on its side").toMatchObject({ reliability: "firm" });
  expect(read(outline, { sheetWidthMm: 100, sheetHeightMm: 140 })).toMatchObject({
    value: 4,
    reliability: "weak",
    note: expect.stringContaining("look at the outline"),
  });
});

test("a file cropped to the sheet shows four sides only where its proportions are those of the sheet", () => {
  const sides = { top: "assumed", right: "assumed", bottom: "assumed", left: "assumed" } as const;
  const outline = outlineOf(quad(-0.5, -0.5, 199.5, 299.5), { sides });
  expect(read(outline, { sheetWidthMm: 100, sheetHeightMm: 150 })).toMatchObject({ value: 4, reliability: "fair" });
  expect(read(outline, { sheetWidthMm: 150, sheetHeightMm: 100 }), "lying on its side").toMatchObject({ value: 4 });
  expect(read(outline, { sheetWidthMm: 100, sheetHeightMm: 140 })).toHaveProperty("absent");
  expect(read(outline)).toHaveProperty("absent");
});

test("without a print the reading is absent, never nought", () => {
  expect(read(null)).toEqual({ name: "sidesSeen", absent: expect.stringContaining("plain sheet") });
});

test("a whole sheet of unknown size brings the formats it may be of: by size where the file claims a scale, else by proportions", () => {
  // 88.5 × 107.5 mm at 254 ppi, 10 px a mm.
  const large = pictureOf(new Uint8Array(1000 * 1200 * 3), 1000, 1200);
  const outline = outlineOf(quad(50, 50, 935, 1125));
  const bySize = sidesSeen(large, outline, contextOf({ claimedPpiX: 254, claimedPpiY: 254 }))[0];
  const nearest = (reading: typeof bySize) => JSON.stringify(reading && "detail" in reading ? reading.detail?.formatsFitting : null);
  expect(nearest(bySize)).toContain(findFormat("integral-large-square")?.name ?? "missing");
  expect(nearest(sidesSeen(large, outline, contextOf())[0])).toContain(findFormat("integral-large-square")?.name ?? "missing");
  expect(read(outlineOf(quad(20, 20, 180, 280)), { sheetWidthMm: 80, sheetHeightMm: 130 })).not.toHaveProperty("detail.formatsFitting");
});

test("those formats are named in words too, with what they were told by, and that none fits is said", () => {
  const name = findFormat("integral-large-square")?.name ?? "missing";
  const large = pictureOf(new Uint8Array(1000 * 1200 * 3), 1000, 1200);
  const noteOf = (outline: Outline, known = {}) => {
    const reading = sidesSeen(large, outline, contextOf(known))[0];
    return reading && "note" in reading ? reading.note : undefined;
  };
  const sheet = outlineOf(quad(50, 50, 935, 1125));
  expect(noteOf(sheet, { claimedPpiX: 254, claimedPpiY: 254 })).toBe(
    `Its size is not known. Formats that fit by the scale that the file claims: ${name}. A ruler decides.`,
  );
  expect(noteOf(sheet)).toMatch(new RegExp(`^Its size is not known\\. Formats that fit by proportions alone: .*${name}`));
  expect(noteOf(outlineOf(quad(50, 50, 950, 250)))).toMatch(/no format that is known here fits/);
  expect(noteOf(sheet, { sheetWidthMm: 88.5, sheetHeightMm: 107.5 }), "with the size known there is nothing to guess").toBeUndefined();
});
