import { expect, test } from "vitest";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { openCollection } from "#server/open-collection.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyFolder, solander } from "./command-line.ts";

/** Seven prints, each captured on the stand and by phone; the stand samples 200 ppi more of each. */
function capturedBothWays(): string {
  const collection = emptyFolder();
  const context = openCollection(collection);
  for (let number = 1; number <= 7; number++) {
    const print = keptPrint(context.db, `A${number}`);
    for (const [method, samplingPpi] of [
      ["copy-stand-camera", 500 + number],
      ["phone-camera", 300 + number],
    ] as const)
      measuredCapture(context.db, print, { ...GOOD_ENOUGH, samplingPpi }, { fileName: `${method}-${number}.tif`, method });
  }
  chooseMasters(context);
  context.close();
  return collection;
}

test("methods says which way is better, by how much, what time and equipment took, and what cannot be told", async () => {
  const { code, answer } = await solander(["methods", "--collection", capturedBothWays()]);
  expect(code).toBe(0);
  expect(answer).toMatch(/^Camera on copy stand: 7 prints, 7 captures, \d meet the aim/m);
  expect(answer).toContain("sampling (by 200 ppi as the median, on 7 of 7)");
  expect(answer).toContain("Which is quicker is not known: by either, no file says when it was taken.");
  expect(answer).toContain("What these captures cannot tell:\n");
});

test("methods answers programs the same in numbers, and takes the pair it is asked for the way round it is asked", async () => {
  const asked = ["--first", "phone-camera", "--second", "copy-stand-camera", "--json"];
  const { answer } = await solander(["methods", "--collection", capturedBothWays(), ...asked]);
  const { ways, pair } = JSON.parse(answer);
  expect(ways.map(({ way }: { way: string }) => way).toSorted()).toEqual(["copy-stand-camera", "phone-camera"]);
  const sampling = pair.compared.measures.find(({ measure }: { measure: string }) => measure === "samplingPpi");
  expect(sampling).toMatchObject({ pairs: 7, better: 0, worse: 7, difference: -200, middleHalf: { low: -200, high: -200 } });
});

test("methods of an empty collection says that no capture tells how it was made", async () => {
  const collection = emptyFolder();
  openCollection(collection).close();
  expect(await solander(["methods", "--collection", collection])).toMatchObject({
    code: 0,
    answer: "No capture says how it was made yet.\n",
  });
});
