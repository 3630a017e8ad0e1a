import { describe, expect, test } from "vitest";
import { barrel } from "#domain/measure/geometry/barrel.ts";
import { sampling } from "#domain/measure/geometry/sampling.ts";
import { cornersOf } from "#domain/measure/lines.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import { isPresent } from "#domain/measure/reading.ts";
import { barrelLadder, drawnBarrel } from "../../../accuracy/ladders/barrel.ts";
import { captureSheet } from "../../../fixtures/captured-sheet.ts";
import { lensBow, throughLens } from "../../../fixtures/defects/lens-bow.ts";
import type { Defect } from "../../../fixtures/pictures.ts";

const read = (level: number, seed: number) => {
  const { picture, context } = barrelLadder.draw(level, seed);
  return barrel(picture, findOutlines(picture, context)[0] ?? null, context)[0];
};

describe("the bow of a print's sides", () => {
  test.each([-2, 0, 1, 2])("by a lens of %s per cent is read within a quarter of a per cent, with its sign", (level) => {
    const reading = read(level, 40 + level);
    expect(Math.abs((isPresent(reading) ? reading.value : Number.NaN) - drawnBarrel(level))).toBeLessThan(0.25);
  });

  test("of a sheet curled in one direction is no lens, and is not called one", () => {
    const curled = captureSheet({ turnDeg: 1, noise: 0.5, defects: [curl(5)] });
    const [outline] = findOutlines(curled.picture, curled.context);
    expect(outline?.radial).toBeUndefined();
    expect(barrel(curled.picture, outline ?? null, curled.context)[0]).toMatchObject({ absent: expect.stringContaining("curled") });
  });

  test("is absent without a print", () => {
    const { picture, context } = captureSheet({});
    expect(barrel(picture, null, context)[0]).toHaveProperty("absent");
  });
});

test("through a lens with 2 % of barrel the corners are found where they are seen, and the sampling as it is in the middle", () => {
  const radial = 0.02 / ((26 / 25.4) * 200) ** 2;
  const { picture, truth, context } = captureSheet({ defects: [lensBow(radial)], noise: 0.5 });
  const [outline] = findOutlines(picture, context);
  const seen = cornersOf(truth.sheet).map((corner) => throughLens(corner, radial, picture));
  cornersOf(outline?.sheet ?? truth.sheet).forEach((corner, index) => {
    expect(Math.hypot(corner.x - (seen[index]?.x ?? 0), corner.y - (seen[index]?.y ?? 0))).toBeLessThan(0.3);
  });
  const [ppi] = sampling(picture, outline ?? null, context);
  expect(isPresent(ppi) ? ppi.value : null).toBeCloseTo(200, 0);
});

/** Upper and lower edge pushed outwards in their middle by so many px, as a sheet is seen that rises to a ridge from top to bottom. */
function curl(px: number): Defect {
  return ({ widthPx, heightPx, rgb }) => {
    const from = rgb.slice();
    for (let y = 0; y < heightPx; y++) {
      for (let x = 0; x < widthPx; x++) {
        const across = (2 * x) / widthPx - 1;
        const down = (2 * y) / heightPx - 1;
        const source = Math.min(heightPx - 1.001, Math.max(0, y - 1.6 * px * down * (1 - across * across)));
        const row = Math.floor(source);
        for (let channel = 0; channel < 3; channel++) {
          const [upper, lower] = [
            from[(row * widthPx + x) * 3 + channel] as number,
            from[((row + 1) * widthPx + x) * 3 + channel] as number,
          ];
          rgb[(y * widthPx + x) * 3 + channel] = upper + (source - row) * (lower - upper);
        }
      }
    }
  };
}
