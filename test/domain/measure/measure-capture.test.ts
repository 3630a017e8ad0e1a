import { describe, expect, test } from "vitest";
import { MEASURE_NAMES } from "#domain/measure/catalogue.ts";
import { measureCapture } from "#domain/measure/measure-capture.ts";
import { isPresent } from "#domain/measure/reading.ts";
import { contextFor, drawPicture, INSTANT, pictureOf, poseOf } from "../../fixtures/pictures.ts";

describe("measuring a capture", () => {
  const print = { ...INSTANT, pose: poseOf({ ...INSTANT, ppi: 150, centre: { x: 330, y: 400 }, turnDeg: 2.5 }) };
  const { picture } = drawPicture({ widthPx: 680, heightPx: 800, bedPxPerMm: 6, prints: [print] });
  const measured = measureCapture(picture, contextFor(INSTANT, { claimedPpiX: 150, claimedPpiY: 150 }));

  test("answers every measure that one capture can tell, once", () => {
    expect(measured.readings.map(({ name }) => name).sort()).toEqual([...MEASURE_NAMES].sort());
  });

  test("reads the drawn sampling, turn and sides", () => {
    const drawn = (name: string) => measured.readings.filter(isPresent).find((reading) => reading.name === name)?.value;
    expect(drawn("samplingPpi")).toBeCloseTo(150, 0);
    expect(drawn("skewDegrees")).toBeCloseTo(2.5, 1);
    expect(drawn("sidesSeen")).toBe(4);
    expect(drawn("scaleErrorPercent")).toBeLessThan(0.2);
  });

  test("brings the outline, and the grid of the picture by which captures are compared", () => {
    expect(measured.outlines).toHaveLength(1);
    expect(measured.grid).toMatchObject({ pxPerMm: 4, widthPx: 316, heightPx: 308 });
  });
});

describe("a file with no print in it", () => {
  test.each([
    ["one pixel", 1, 1],
    ["three pixels wide", 3, 90],
    ["an odd size", 131, 77],
  ])("of %s gives a reason for every measure it cannot give, and never nought in its place", (_, widthPx, heightPx) => {
    const codes = Uint8Array.from({ length: widthPx * heightPx * 3 }, (_each, index) => 90 + (index % 7));
    const { readings, outlines, grid } = measureCapture(pictureOf(codes, widthPx, heightPx), contextFor(INSTANT));
    expect(outlines).toEqual([]);
    expect(grid).toBeNull();
    expect(readings.map(({ name }) => name).sort()).toEqual([...MEASURE_NAMES].sort());
    for (const reading of readings) {
      if (["effectiveBitDepth", "lossless", "tonalRangeDeltaL", "clippedHighlightsPercent", "clippedShadowsPercent"].includes(reading.name))
        continue;
      expect(reading, reading.name).toHaveProperty("absent");
    }
  });
});
