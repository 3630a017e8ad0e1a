import { expect, test } from "vitest";
import { sharp } from "#server/images/policy.ts";
import { decoded } from "../../fixtures/decoded.ts";
import { fileOf } from "../../fixtures/image-files.ts";

const WIDTH = 6000;
const HEIGHT = 4000;
const BYTES = 3 * WIDTH * HEIGHT;

test("one large picture is held at a time, however many are decoded one after the other", async () => {
  const plain = sharp({ create: { width: WIDTH, height: HEIGHT, channels: 3, background: "#808080" } });
  const file = fileOf(await plain.jpeg().toBuffer());
  const before = process.memoryUsage().external;
  const held: number[] = [];
  for (let time = 0; time < 4; time++) {
    expect(await codesIn(file)).toBe(BYTES);
    held.push(process.memoryUsage().external - before);
  }
  expect(Math.max(...held)).toBeLessThan(1.5 * BYTES);
});

/** In a function of its own, so that nothing here holds the picture. */
const codesIn = async (file: string) => (await decoded(file, "jpeg")).codes.length;
