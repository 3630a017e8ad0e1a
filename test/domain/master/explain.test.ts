import { expect, test } from "vitest";
import type { AimLimit } from "#domain/aim/aim.ts";
import { atLeast, atMost } from "#domain/aim/limit.ts";
import { type Candidate, choose } from "#domain/master/choose.ts";
import { explain } from "#domain/master/explain.ts";
import { COUNTING, capture } from "./captures.ts";

const why = (captures: readonly Candidate[], limits: readonly AimLimit[] = COUNTING) => explain(choose(captures, limits), limits);

const REQUIRING = [
  atLeast("lossless", { lowest: 0, best: 1, required: 1 }, 1, ["own", "test"]),
  atLeast("samplingPpi", { lowest: 200, best: 600, required: 392 }, 1, ["own", "test"]),
  atLeast("sidesSeen", { lowest: 2, best: 4, required: 4 }, 1, ["own", "test"]),
];

test("the sentence names the measure that decided with both numbers, and what speaks for the runner-up", () => {
  expect(
    why([
      capture(1, { samplingPpi: 90, sfr50CyPerMm: 40, noiseDeltaL: 60 }),
      capture(2, { samplingPpi: 50, sfr50CyPerMm: 50, noiseDeltaL: 50 }),
    ]),
  ).toBe(
    "capture-1.tif beats capture-2.tif above all in sampling (90 ppi against 50 ppi), although capture-2.tif is better in SFR 50 % (50.00 cy/mm against 40.00 cy/mm).",
  );
});

test("a master that is nowhere worse is said to be so", () => {
  expect(why([capture(1, { samplingPpi: 90, noiseDeltaL: 20 }), capture(2, { samplingPpi: 30, noiseDeltaL: 21 })])).toBe(
    "capture-1.tif is at least as good as capture-2.tif in everything that was read, and better above all in sampling (90 ppi against 30 ppi).",
  );
});

test("numbers that round to the same are shown with enough decimals to differ", () => {
  expect(why([capture(1, { samplingPpi: 90.26 }), capture(2, { samplingPpi: 90.21 })])).toContain("(90.3 ppi against 90.2 ppi)");
});

test("what the readings cannot tell apart is not given as the reason where something else can", () => {
  const sure = { reliability: "firm", spread: 0.5 } as const;
  const doubtful = { reliability: "firm", spread: 20 } as const;
  expect(
    why([
      capture(1, {
        samplingPpi: { value: 60, ...doubtful },
        sfr50CyPerMm: { value: 52, ...sure },
        noiseDeltaL: { value: 20, ...doubtful },
      }),
      capture(2, {
        samplingPpi: { value: 45, ...doubtful },
        sfr50CyPerMm: { value: 40, ...sure },
        noiseDeltaL: { value: 18, ...doubtful },
      }),
    ]),
  ).toContain("SFR 50 % (52.00 cy/mm against 40.00 cy/mm)");
});

test("bounds are called bounds", () => {
  const atLeast = (value: number) => ({ value, bound: "lower", reliability: "firm" }) as const;
  expect(why([capture(1, { sfr50CyPerMm: atLeast(5) }), capture(2, { sfr50CyPerMm: atLeast(4) })])).toContain(
    "SFR 50 % (at least 5.00 cy/mm against at least 4.00 cy/mm)",
  );
});

test("a difference smaller than the spreads is called too close", () => {
  const doubtful = { reliability: "fair", spread: 5 } as const;
  expect(why([capture(1, { samplingPpi: { value: 50, ...doubtful } }), capture(2, { samplingPpi: { value: 52, ...doubtful } })])).toBe(
    "Too close to call: capture-2.tif and capture-1.tif differ by less than their readings are sure of; capture-2.tif stands for its sampling (52 ppi against 50 ppi).",
  );
});

test("a requirement that is met or missed by less than the reading is sure of is said to be in doubt", () => {
  const near = (value: number) =>
    why([capture(1, { lossless: 1, samplingPpi: { value, spread: 6, reliability: "fair" }, sidesSeen: 4 })], REQUIRING);
  expect(near(395)).toBe(
    "capture-1.tif is the only capture, and meets every requirement. That is too close to call: what was read is not sure enough.",
  );
  expect(near(389)).toMatch(/cannot be master: sampling is 389 ppi.* That is too close to call: what was read is not sure enough\.$/);
  expect(near(450)).not.toContain("too close");
});

test("equals are called equals", () => {
  expect(why([capture(1, { samplingPpi: 90 }), capture(2, { samplingPpi: 90 })])).toBe(
    "capture-1.tif and capture-2.tif are alike in all that counts and that both show, so either would do; capture-1.tif stands.",
  );
});

test("glare of at least 1.4 % where 2 % is the most is not said to meet the requirement, at least 0 % no more than that", () => {
  const limits = [...REQUIRING, atMost("glareAreaPercent", { best: 0, highest: 8, required: 2 }, 1, ["own", "test"])];
  const glare = (value: number, bound?: "lower") =>
    why(
      [
        capture(1, {
          lossless: 1,
          samplingPpi: 500,
          sidesSeen: 4,
          glareAreaPercent: { value, reliability: "firm", ...(bound && { bound }) },
        }),
      ],
      limits,
    );
  expect(glare(1.4, "lower")).toBe(
    "capture-1.tif is the only capture, and falls short of no requirement, as far as can be told: only a bound is known of glare (at least 1.4 %).",
  );
  expect(glare(0, "lower")).toContain("only a bound is known");
  expect(glare(1.4)).toBe("capture-1.tif is the only capture, and meets every requirement.");
});

test("that only a bound is known of what is asked is said of a master that beats another too", () => {
  const limits = [...REQUIRING, atMost("glareAreaPercent", { best: 0, highest: 8, required: 2 }, 1, ["own", "test"])];
  const good = { lossless: 1, sidesSeen: 4, samplingPpi: 500 };
  const beside = (bound?: "lower") =>
    why(
      [
        capture(1, { ...good, glareAreaPercent: { value: 0.4, reliability: "firm", ...(bound && { bound }) } }),
        capture(2, { ...good, samplingPpi: 410 }),
      ],
      limits,
    );
  expect(beside("lower")).toMatch(
    /against 410 ppi.*\. It falls short of no requirement, as far as can be told: only a bound is known of glare \(at least 0\.4 %\)\.$/,
  );
  expect(beside()).not.toContain("only a bound");
});

test("the only capture, and the only one that passes, are said to be so", () => {
  const good = capture(1, { lossless: 1, samplingPpi: 500, sidesSeen: 4 });
  expect(why([good], REQUIRING)).toBe("capture-1.tif is the only capture, and meets every requirement.");
  expect(why([good, capture(2, { lossless: 0, samplingPpi: 500, sidesSeen: 4 })], REQUIRING)).toBe(
    "capture-1.tif is the only one of 2 captures that meets every requirement.",
  );
});

test("where none passes, the sentence names the best file and every requirement it misses", () => {
  const jpeg = capture(1, { lossless: 0, samplingPpi: 310, sidesSeen: 4 });
  const worse = capture(2, { lossless: 0, samplingPpi: 210, sidesSeen: 3 });
  expect(why([jpeg, worse], REQUIRING)).toBe(
    "None of 2 captures meets every requirement; the best file that exists is capture-1.tif, but its compression throws values away and sampling is 310 ppi where at least 392 ppi is asked.",
  );
});

test("a requirement that cannot be read is told with its reason", () => {
  expect(why([capture(1, { lossless: 1, samplingPpi: "the size of the print is not known", sidesSeen: 3 })], REQUIRING)).toBe(
    "capture-1.tif is the only capture, and cannot be master: sampling is not shown (the size of the print is not known) and only 3 of the 4 sides of the sheet are seen.",
  );
});

test("one reason that hides several measures is told once, by its first sentence", () => {
  const weak = "only a weak hint was read. Set the corners by hand.";
  const limits = [...REQUIRING, atMost("keystonePercent", { best: 0, highest: 5, required: 2 }, 1, ["own", "test"])];
  const hidden = capture(1, {
    lossless: 1,
    samplingPpi: `${weak} The border was not read.`,
    sidesSeen: weak,
    keystonePercent: "one side is cut off",
  });
  expect(why([hidden], limits)).toBe(
    "capture-1.tif is the only capture, and cannot be master: sampling and sides of the sheet seen are not shown (only a weak hint was read) and keystone is not shown (one side is cut off).",
  );
});

test("no captures at all", () => {
  expect(why([])).toBe("There is no capture to choose from.");
});

test("what hardly speaks for the runner-up is not said: noise 50 against 49 beside sampling 90 against 50", () => {
  expect(why([capture(1, { samplingPpi: 90, noiseDeltaL: 50 }), capture(2, { samplingPpi: 50, noiseDeltaL: 49 })])).toBe(
    "capture-1.tif beats capture-2.tif above all in sampling (90 ppi against 50 ppi).",
  );
});
