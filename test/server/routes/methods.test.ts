import { expect, test } from "vitest";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { compareMethods } from "#server/actions/compare-methods.ts";
import { createApp } from "#server/app.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const words = (html: string) => html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

/** Eight prints, each captured on the stand and by phone; the phone samples less and gives up some of what is read. */
function capturedBothWays() {
  const context = emptyCollection();
  for (let number = 1; number <= 8; number++) {
    const print = keptPrint(context.db, `A${number}`);
    measuredCapture(
      context.db,
      print,
      { ...GOOD_ENOUGH, samplingPpi: 500 + number },
      { fileName: `s${number}.tif`, method: "copy-stand-camera" },
    );
    measuredCapture(
      context.db,
      print,
      { ...GOOD_ENOUGH, samplingPpi: 300 - number, lossless: 0 },
      { fileName: `p${number}.jpg`, method: "phone-camera" },
    );
  }
  chooseMasters(context);
  return context;
}

test("the page says which way is better on the same prints, by how much, and what it cannot tell", async () => {
  const app = createApp(capturedBothWays());
  const page = words(await (await app.request("/methods?first=copy-stand-camera&second=phone-camera")).text());
  // 500 + n less 300 − n: 202 to 216, median 209
  expect(page).toMatch(/Camera on copy stand is better in .*sampling \(by 209 ppi as the median, on 8 of 8\)/);
  expect(page).toContain("8 only by camera on copy stand, 0 only by phone camera, 0 by neither. That is more than chance.");
  expect(page).toContain("prints were not given to the two ways by chance");
  expect(page).toContain("Which is quicker is not known: by either, no file says when it was taken.");
  // phone samples 299 to 292 ppi: by hand the third, the middle and the sixth of eight are 294, 295.5 and 297
  expect(page).toMatch(/Every measure, with its spread .*Phone camera 8 294 ppi 296 ppi 297 ppi/);
  expect(page).toContain("with few pairs it is somewhat narrower than 95 %");
  expect(page).toContain("is a question of its own (McNemar, exact)");
});

test("without captures there is nothing to compare, and the page says what to do", async () => {
  const app = createApp(emptyCollection());
  expect(words(await (await app.request("/methods")).text())).toContain("Name the method, or one of your set-ups");
});

test("told apart by set-ups, captures that name a method alone are not said to tell nothing", async () => {
  const app = createApp(capturedBothWays());
  const page = words(await (await app.request("/methods?by=set-up")).text());
  expect(page).toContain("No capture names a set-up yet.");
  expect(page).not.toContain("how it was made");
});

test("keys that are no ways, or the same way twice, give way to the pair with most prints in common", () => {
  const context = capturedBothWays();
  const asked = { purposeKey: null, by: "method" as const };
  for (const [first, second] of [
    ["phone-camera", "phone-camera"],
    ["telescope", "phone-camera"],
  ] as const)
    expect(compareMethods(context, { ...asked, first, second }).pair?.compared.pairs).toBe(8);
});

test("told apart by set-ups, captures that name none are counted and left out", () => {
  const compared = compareMethods(capturedBothWays(), { purposeKey: null, by: "set-up", first: null, second: null });
  expect(compared).toMatchObject({ ways: [], unnamed: 16, pair: null });
});
