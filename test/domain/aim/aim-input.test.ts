import { expect, test } from "vitest";
import { aimFile, aimFileSchema } from "#domain/aim/aim-file.ts";
import { aimInput, areSameLimits, limitsOf } from "#domain/aim/aim-input.ts";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { aimFromTyped, MEASURES_TO_ASK, typedAim } from "#domain/aim/typed-aim.ts";
import { MEASURES } from "#domain/measure/catalogue.ts";

const SAMPLING = { sense: "at-least", lowest: 200, best: 600, weight: 3, requiredAtLeast: 392 } as const;
const aim = (limits: Record<string, unknown>) => ({ name: "Walls", asks: "Fine enough", limits });
const problems = (limits: Record<string, unknown>) =>
  (aimInput.safeParse(aim(limits)).error?.issues ?? []).map(({ path, message }) => `${path.join(".")}: ${message}`);

test.each(PUBLISHED_AIMS.map((published) => [published.purpose.key, published] as const))(
  "the ready-made aim for %s passes the schema, and comes back from its file and from its form as it was",
  (_, published) => {
    const whole = { ...published, id: 1, version: 1, purpose: { ...published.purpose, id: 1 } };
    const read = aimFileSchema.parse(JSON.parse(JSON.stringify(aimFile(whole))));
    expect(limitsOf(read)).toEqual(published.limits);
    const target = published.limits.filter((limit) => limit.provedBy === "target");
    const typed = aimInput.parse(aimFromTyped(typedAim(whole), target));
    const again = limitsOf(typed, [published.limits]);
    expect(areSameLimits(again, published.limits)).toBe(true);
    for (const limit of again) expect(published.limits).toContainEqual(limit);
  },
);

test.each([
  ["more is better, but worthless above what is good enough", { ...SAMPLING, lowest: 700 }, "lowest: More is better"],
  [
    "less is better, but worthless below what is good enough",
    { sense: "at-most", best: 5, highest: 2, weight: 1 },
    "highest: Less is better",
  ],
  ["a weight without an end", { sense: "at-least", best: 5, weight: 1 }, "lowest: Say from where"],
  ["a weight and no best", { sense: "at-least", lowest: 5, weight: 1 }, "best: Say from where"],
  ["nothing but a sense", { sense: "at-least" }, "best: Say from where"],
  ["a requirement of the wrong side", { ...SAMPLING, requiredAtMost: 700 }, "requiredAtMost: More is better"],
  [
    "more than at most",
    { sense: "between", lowest: 0, best: 5, highest: 9, weight: 1, requiredAtLeast: 6, requiredAtMost: 4 },
    "requiredAtMost: Nothing can",
  ],
  ["a negative weight", { ...SAMPLING, weight: -1 }, "weight: A weight is 0 or more"],
  ["a weight beyond all sense", { ...SAMPLING, weight: 101 }, "weight: A weight is at most 100"],
  ["a word", { ...SAMPLING, best: "many" }, "best: Write a number"],
  ["no number at all", { ...SAMPLING, best: Number.NaN }, "best: Write a number"],
  ["endless", { ...SAMPLING, best: Number.POSITIVE_INFINITY }, "best: Write a number"],
  ["beyond all sense", { ...SAMPLING, best: 1e9 }, "best: Write a number up to"],
])("a limit is refused with its field: %s", (_, limit, expected) => {
  const said = problems({ samplingPpi: limit, noiseDeltaL: { sense: "at-most", best: 1, highest: 4, weight: 1 } });
  expect(said).toEqual(expect.arrayContaining([expect.stringContaining(`limits.samplingPpi.${expected}`)]));
});

test("a measure that must only be met needs no ends, and its best is what is required", () => {
  const read = aimInput.parse(aim({ samplingPpi: SAMPLING, skewDegrees: { sense: "at-most", requiredAtMost: 2 } }));
  expect(limitsOf(read).find(({ measure }) => measure === "skewDegrees")).toMatchObject({ best: 2, weight: 0, requiredAtMost: 2 });
});

test("an aim that weighs nothing, or asks for a measure that nobody knows, is refused", () => {
  expect(problems({ samplingPpi: { ...SAMPLING, weight: 0 } })).toEqual([expect.stringContaining("Give at least one measure a weight")]);
  expect(problems({ samplingPpi: SAMPLING, beauty: SAMPLING })).not.toEqual([]);
  expect(aimInput.safeParse({ ...aim({ samplingPpi: SAMPLING }), extra: 1 }).success).toBe(false);
});

test("a figure that stands keeps its source, a changed one is the keeper's own, and one set back is the published one again", () => {
  const known = [PUBLISHED_AIMS[0]?.limits ?? []];
  const sourced = (requiredAtLeast: number) =>
    limitsOf(aimInput.parse(aim({ samplingPpi: { ...SAMPLING, requiredAtLeast } })), known).map(({ source, sourceStatus }) => [
      sourceStatus,
      source,
    ]);
  expect(sourced(392)[0]?.[1]).toContain("36 CFR 1236.50");
  expect(sourced(300)).toEqual([["own", "Own figure of this collection."]]);
});

test("a form leaves out rows that are empty, takes a comma, and hands on what is no number for the schema to refuse", () => {
  const typed = {
    name: " Walls ",
    asks: "Fine",
    "limits.samplingPpi.sense": "at-least",
    "limits.samplingPpi.lowest": "150,5",
    "limits.samplingPpi.best": "400",
    "limits.samplingPpi.weight": "2",
    "limits.skewDegrees.sense": "at-most",
    "limits.skewDegrees.best": " ",
    "limits.noiseDeltaL.sense": "at-most",
    "limits.noiseDeltaL.best": "little",
  };
  const read = aimFromTyped(typed, []);
  expect(read.limits).toEqual({
    samplingPpi: { sense: "at-least", requiredAtLeast: null, lowest: 150.5, best: 400, weight: 2 },
    noiseDeltaL: { sense: "at-most", requiredAtMost: null, best: "little", highest: null, weight: 0 },
  });
  expect(aimInput.safeParse(read).error?.issues.map(({ path }) => path.join("."))).toEqual(["limits.noiseDeltaL.best"]);
});

test("only measures with a better and a worse can be asked for", () => {
  for (const name of MEASURES_TO_ASK) expect(MEASURES[name].better).not.toBe("fact");
  expect(MEASURES_TO_ASK).not.toContain("borderCastA");
});
