import { describe, expect, test } from "vitest";
import { type ChangedPlace, type DensitySheet, whatWasBefore } from "#domain/condition/change/what-was-before.ts";
import { random } from "../../../fixtures/picture-scenes.ts";

const PX_PER_MM = 8;
const [WIDTH, HEIGHT] = [320, 320];
/** Yellow: of blue light most is kept back. */
const YELLOW = [0.03, 0.1, 0.25] as const;
/** Seeds of no tuning. */
const SEEDS = [9101, 9102, 9103, 9104, 9105, 9106];

type Shape = (xMm: number, yMm: number) => boolean;
const disc =
  (x: number, y: number, radiusMm: number): Shape =>
  (xMm, yMm) =>
    Math.hypot(xMm - x, yMm - y) <= radiusMm;
const bar =
  (from: number, to: number, y: number, halfMm: number): Shape =>
  (xMm, yMm) =>
    xMm >= from && xMm <= to && Math.abs(yMm - y) <= halfMm;

/** A sheet of 40 × 40 mm: density 0.1 with noise and a fall of light, and stains on it. */
function sheet(seed: number, stains: readonly { shape: Shape; density: readonly number[] }[], noise = 0.01): DensitySheet {
  const densities = [0, 1, 2].map((channel) =>
    Float32Array.from({ length: WIDTH * HEIGHT }, (_, at) => {
      const [xMm, yMm] = [((at % WIDTH) + 0.5) / PX_PER_MM, (Math.floor(at / WIDTH) + 0.5) / PX_PER_MM];
      const grain = [0, 1, 2, 3].reduce((sum, k) => sum + random(seed, at, 10 * channel + k) - 0.5, 0) * Math.sqrt(3);
      const stained = stains.reduce((sum, { shape, density }) => sum + (shape(xMm, yMm) ? (density[channel] as number) : 0), 0);
      return 0.1 + 0.001 * xMm + noise * grain + stained;
    }),
  );
  return { width: WIDTH, height: HEIGHT, pxPerMm: PX_PER_MM, densities, parts: new Uint8Array(WIDTH * HEIGHT).fill(1) };
}

/** What a comparison finds where a shape changed by a density. */
function changed(shape: Shape, density: readonly number[]): ChangedPlace {
  const cells = Array.from({ length: WIDTH * HEIGHT }, (_, at) => at).filter((at) =>
    shape(((at % WIDTH) + 0.5) / PX_PER_MM, (Math.floor(at / WIDTH) + 0.5) / PX_PER_MM),
  );
  const length = Math.hypot(...density);
  return { cells, towards: density.map((value) => value / length), density: length, isInPicture: false };
}

const without =
  (whole: Shape, part: Shape): Shape =>
  (x, y) =>
    whole(x, y) && !part(x, y);

describe.each(SEEDS)("seed %d", (seed) => {
  const at = (which: number, from: number, to: number) => from + (to - from) * random(seed, which, 55);
  const [x, y] = [at(1, 17, 23), at(2, 17, 23)];
  const [small, large] = [at(3, 1.5, 2.5), at(4, 3, 4)];

  test("a stain where the older capture shows nothing is new, with another stain elsewhere too", () => {
    const place = changed(disc(x, y, small), YELLOW);
    expect(whatWasBefore(sheet(seed, []), place)).toEqual({ state: "new" });
    const elsewhere = { shape: disc(x + small + 4, y, 1.2), density: YELLOW };
    expect(whatWasBefore(sheet(seed, [elsewhere]), place)).toEqual({ state: "new" });
  });

  test("a stain that is larger than it was has grown, by the area of the ring around it", () => {
    const older = sheet(seed, [{ shape: disc(x, y, small), density: YELLOW }]);
    const before = whatWasBefore(older, changed(without(disc(x, y, large), disc(x, y, small)), YELLOW));
    if (before.state !== "grown") throw new Error(JSON.stringify(before));
    expect(Math.abs(before.grownMm2 / (Math.PI * (large ** 2 - small ** 2)) - 1)).toBeLessThan(0.08);
    expect(Math.abs(before.beforeMm2 / (Math.PI * small ** 2) - 1)).toBeLessThan(0.15);
  });

  test("a stain that grew on one side alone has grown, though it fills much of what is around", () => {
    const old = disc(x, y, large);
    const older = sheet(seed, [{ shape: old, density: YELLOW }]);
    const crescent = without(disc(x + 1.5, y, large), old);
    const place = changed(crescent, YELLOW);
    const before = whatWasBefore(older, place);
    if (before.state !== "grown") throw new Error(JSON.stringify(before));
    expect(Math.abs(before.grownMm2 / (place.cells.length / PX_PER_MM ** 2) - 1)).toBeLessThan(0.12);
  });

  test("a crack that became longer has grown, though it comes from far away", () => {
    const white = [-0.3, -0.3, -0.3];
    const older = sheet(seed, [{ shape: bar(0, x, y, 0.2), density: white }]);
    const place = changed(bar(x, x + 6, y, 0.2), white);
    const before = whatWasBefore(older, place);
    if (before.state !== "grown") throw new Error(JSON.stringify(before));
    expect(Math.abs(before.grownMm2 / (place.cells.length / PX_PER_MM ** 2) - 1)).toBeLessThan(0.1);
  });

  test("a stain that is darker but no larger is stronger, and one that went is weaker", () => {
    const older = sheet(seed, [{ shape: disc(x, y, small), density: YELLOW }]);
    expect(whatWasBefore(older, changed(disc(x, y, small), YELLOW)).state).toBe("stronger");
    expect(
      whatWasBefore(
        older,
        changed(
          disc(x, y, small),
          YELLOW.map((value) => -value),
        ),
      ).state,
    ).toBe("weaker");
  });

  test("a yellow stain beside a blue one is new: they are no one thing", () => {
    const older = sheet(seed, [{ shape: disc(x + small + 1, y, 1), density: [0.3, 0.1, 0.0] }]);
    expect(whatWasBefore(older, changed(disc(x, y, small), YELLOW))).toEqual({ state: "new" });
  });

  test("among what is as uneven as the change nothing is told, nor beside what goes on far around", () => {
    const busy = whatWasBefore(sheet(seed, [], 0.5), changed(disc(x, y, small), YELLOW));
    expect(busy).toMatchObject({ state: "not-told", reason: "what is around it is as uneven as the change" });
    const half: Shape = (xMm) => xMm < x - small;
    const beside = whatWasBefore(sheet(seed, [{ shape: half, density: YELLOW }]), changed(disc(x, y, small), YELLOW));
    expect(beside).toMatchObject({ state: "not-told", reason: expect.stringContaining("goes on far around it") });
  });
});

test("a detail of its colour beside a large stain is told of on a border, and in a picture left open", () => {
  for (const seed of SEEDS) {
    const older = sheet(seed, [{ shape: disc(23, 20, 0.5), density: YELLOW }]);
    const place = changed(disc(20, 20, 2.6), YELLOW);
    expect(whatWasBefore(older, place).state).toBe("grown");
    expect(whatWasBefore(older, { ...place, isInPicture: true }).state).toBe("not-told");
  }
});

test("light and dark of a picture do not hide a stain, nor whether it has grown", () => {
  for (const seed of SEEDS) {
    const plain = [disc(20, 20, 2), disc(20, 20, 3.5)] as const;
    const wavy = (of: DensitySheet): DensitySheet => ({
      ...of,
      densities: of.densities.map((plane) =>
        plane.map((value, at) => value + 0.25 * Math.sin((at % WIDTH) / 9 + seed) * Math.cos(Math.floor(at / WIDTH) / 11)),
      ),
    });
    const place = changed(without(plain[1], plain[0]), YELLOW);
    expect(whatWasBefore(wavy(sheet(seed, [])), place)).toEqual({ state: "new" });
    expect(whatWasBefore(wavy(sheet(seed, [{ shape: plain[0], density: YELLOW }])), place).state).toBe("grown");
  }
});

test("a place at the edge of what is seen is told of as little", () => {
  const older = sheet(1, []);
  const place = changed(disc(20, 20, 2), YELLOW);
  const parts = new Uint8Array(WIDTH * HEIGHT);
  for (const at of place.cells) parts[at] = 1;
  expect(whatWasBefore({ ...older, parts }, place)).toEqual({ state: "not-told", reason: "too little is seen around it" });
});
