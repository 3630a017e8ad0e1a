import { expect, test } from "vitest";
import { MISHAPS } from "../../../fixtures/mishaps.ts";
import { toldOf } from "../../../fixtures/told-of-mishap.ts";

const drawn = (what: string, seed: number) => {
  const draw = MISHAPS[what];
  if (!draw) throw new Error(what);
  return toldOf(draw(seed));
};

test.each(["a corner torn off", "a corner folded over"])("with %s a print has its corner where its sides meet", (what) => {
  for (const seed of [501, 502]) expect(drawn(what, seed), `seed ${seed}`).toBe("right, all sides seen");
});

test.each(["held by a hand at one side", "a joint of the table along a side"])(
  "%s, a print is never told wrong with all its sides seen",
  (what) => {
    for (const seed of [501, 502, 503]) expect(drawn(what, seed), `seed ${seed}`).not.toBe("wrong, all sides seen");
  },
);

test("a print without a border, in a sleeve or on a mount, is not taken for the larger sheet where its sizes are in the record", () => {
  for (const what of ["in a clear sleeve with a rim", "pasted on a mount"])
    for (const seed of [504, 510]) expect(drawn(what, seed), `${what}, seed ${seed}`).not.toBe("wrong, all sides seen");
});

test("a print without a border, whose sizes are in the record, is doubted where it is the picture of a larger print, or the rim of a sleeve, that was found", () => {
  for (const seed of [300, 306, 522]) expect(drawn("lying on a larger print", seed), `seed ${seed}`).not.toBe("wrong, all sides seen");
  expect(drawn("in a clear sleeve with a rim", 300)).not.toBe("wrong, all sides seen");
});
