import { describe, expect, test } from "vitest";
import { changeOf, datedCapture } from "../../../fixtures/dated-captures.ts";
import { crack, disc, exposedBy, stainedBy } from "../../../fixtures/defects/ageing.ts";
import { random } from "../../../fixtures/picture-scenes.ts";

/** On a busy machine too. */
const ENOUGH_MS = 90_000;
// seeds of no other test and of no tuning
const SEEDS = [9301, 9302, 9303];

/** Whether the places in the pictures were told. */
const told: boolean[] = [];

describe.each(SEEDS)("seed %d", (seed) => {
  const at = (which: number, from: number, to: number) => from + (to - from) * random(seed, which, 83);
  const [small, large] = [at(1, 1.6, 2.2), at(2, 3, 3.6)];
  const [x, y] = [at(3, 14, 18), at(4, 14, 20)];
  const tint = [0.02, 0.1, 0.3] as const;
  const broken = [0.3, 0.3, 0.3] as const;
  // along the lower border, which is plain
  const [from, middle, to] = [
    [8, 47.5],
    [16 + at(5, 0, 2), 47.5],
    [30, 47.5],
  ] as const;
  const older = datedCapture({
    seed,
    noise: 0.5,
    turnDeg: 1,
    defects: [stainedBy(tint, disc(x, y, small)), stainedBy(broken, crack(from, middle, 0.3))],
  });

  test(
    "through another exposure, a longer crack on the border has grown by what was drawn, a spot there is new, and in the picture nothing is told wrongly",
    async () => {
      const defects = [
        stainedBy(broken, crack(from, to, 0.3)),
        stainedBy(tint, disc(2.4, 20, 1)),
        stainedBy(tint, disc(x, y, large)),
        stainedBy(tint, disc(30, 30, 2.4)),
        exposedBy([0.96, 0.98, 0.95]),
      ];
      const { structures } = await changeOf(older, datedCapture({ seed, noise: 0.6, turnDeg: -2, blurPx: 0.9, defects }));
      const near = (atX: number, atY: number) =>
        structures.find(({ box }) => Math.abs(box.left + box.width / 2 - atX) < 2.5 && Math.abs(box.top + box.height / 2 - atY) < 2.5);
      const line = near((middle[0] + to[0]) / 2, 47.5);
      if (line?.before.state !== "grown") throw new Error(JSON.stringify(line));
      expect(line.kind).toBe("line");
      expect(Math.abs(line.lengthMm - (to[0] - middle[0]))).toBeLessThan(1);
      expect(Math.abs(line.before.grownMm2 / line.areaMm2 - 1)).toBeLessThan(0.1);
      expect(near(2.4, 20)?.before).toEqual({ state: "new" });
      // a picture may be as uneven as a stain is strong: then that is said
      const [stain, other] = [near(x, y), near(30, 30)];
      expect(["grown", "not-told"]).toContain(stain?.before.state);
      expect(["new", "not-told"]).toContain(other?.before.state);
      told.push(...[stain, other].map((place) => place?.before.state !== "not-told"));
      if (stain?.before.state === "grown")
        expect(Math.abs(stain.before.grownMm2 / (Math.PI * (large ** 2 - small ** 2)) - 1)).toBeLessThan(0.15);
    },
    ENOUGH_MS,
  );
});

test("of the places in the pictures some are told", () => {
  expect(told.filter(Boolean).length).toBeGreaterThan(0);
  expect(told).toHaveLength(2 * SEEDS.length);
});
