import { describe, expect, test } from "vitest";
import type { Qualification } from "#domain/condition/change/qualification.ts";
import { changeOf, datedCapture, inSmallPicture } from "../../../fixtures/dated-captures.ts";
import { disc, exposedBy, fadedBy, stainedBy } from "../../../fixtures/defects/ageing.ts";
import { random } from "../../../fixtures/picture-scenes.ts";

/** How far exposure and colour balance of two captures by one way may lie apart: drawn, not what the program assumes. */
const OFF: Partial<Record<Qualification, readonly [exposure: number, balance: number]>> = {
  "target-checked": [0.03, 0.02],
  "flatbed-scanner": [0.08, 0.05],
  "phone-camera": [0.3, 0.12],
};

/** On a busy machine too. */
const ENOUGH_MS = 90_000;

type Draw = { readonly seed: number; readonly method: Qualification };
// seeds of no other test and of no tuning
const DRAWS: readonly Draw[] = [
  { seed: 7002, method: "flatbed-scanner" },
  { seed: 7003, method: "phone-camera" },
];

/** Another capture of the same print: exposed, balanced, turned, leaned and focused otherwise, all within what the way of capturing does. */
function another({ seed, method }: Draw) {
  const chance = (which: number) => 2 * random(seed, which, 91) - 1;
  const [exposure, balance] = OFF[method] ?? [0, 0];
  const gain = [2, 3, 4].map((channel) => 0.85 * (1 + exposure * chance(1)) * (1 + balance * chance(channel)));
  const pose = { turnDeg: 90 * (seed % 4) + 4 * chance(5), keystoneAcross: 0.04 * chance(6), keystoneDown: 0.04 * chance(7) };
  return { seed, noise: 0.5 + 0.2 * chance(8), blurPx: 0.8 + 0.3 * chance(9), ...pose, gain: exposedBy(gain as [number, number, number]) };
}

const olderOf = ({ seed, method }: Draw) =>
  datedCapture({ seed, noise: 0.5, turnDeg: 1, defects: [exposedBy([0.85, 0.85, 0.85])] }, method);

describe.each(DRAWS)("seed $seed, $method", (draw) => {
  const older = olderOf(draw);
  const { gain, ...made } = another(draw);

  test(
    "exposure, white balance, a turn, a lean and focus alone are no change, and make no place",
    async () => {
      const same = await changeOf(older, datedCapture({ ...made, defects: [gain] }, draw.method));
      const judged = same.numbers.filter((number) => "verdict" in number);
      expect(judged.length).toBeGreaterThan(same.numbers.length / 2);
      expect(judged.filter(({ verdict }) => verdict === "changed")).toEqual([]);
      expect(same.structures).toEqual([]);
    },
    ENOUGH_MS,
  );

  test(
    "a drawn stain is found in it where it was drawn, and it does not become more by another exposure",
    async () => {
      const stain = stainedBy([0.02, 0.1, 0.3], disc(24, 20, 3));
      const changed = await changeOf(older, datedCapture({ ...made, defects: [stain, gain] }, draw.method));
      const [found, ...others] = changed.structures.filter(({ kind }) => kind === "patch");
      expect(others).toEqual([]);
      expect(found?.box.left).toBeGreaterThan(20);
      expect(found?.box.top).toBeGreaterThan(16);
      expect((found?.box.left ?? 0) + (found?.box.width ?? 99)).toBeLessThan(28);
      expect((found?.box.top ?? 0) + (found?.box.height ?? 99)).toBeLessThan(24);
      expect(Math.abs((found?.areaMm2 ?? 0) / (Math.PI * 9) - 1)).toBeLessThan(0.15);
      expect(found?.deltaB).toBeGreaterThan(3);
    },
    ENOUGH_MS,
  );
});

describe("a fade", () => {
  const draw = { seed: 7005, method: "target-checked" } as const;
  const older = olderOf(draw);
  const { gain, ...made } = another(draw);
  const lossAt = async (share: number) => {
    const defects = [fadedBy([share, share, share], inSmallPicture), gain];
    return (await changeOf(older, datedCapture({ ...made, defects }, draw.method))).number("greenDensityLoss");
  };

  test(
    "reads the more the more has faded, within three hundredths of what was drawn, and is a change once it is large",
    async () => {
      const [none, much] = [await lossAt(0), await lossAt(0.3)];
      expect(none.verdict).toBe("within");
      expect(much.verdict).toBe("changed");
      expect(Math.abs(none.value)).toBeLessThan(0.03);
      expect(Math.abs(much.value - 0.3)).toBeLessThan(0.03);
    },
    ENOUGH_MS,
  );
});
