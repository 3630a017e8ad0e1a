import { writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Reading } from "#domain/measure/reading.ts";
import { replaceReadings } from "#drizzle/queries/measures.ts";
import { createApp } from "#server/app.ts";
import { derivedPath } from "#server/collection-folder.ts";
import { writeAreas } from "#server/work/areas-file.ts";
import { measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const corner = (x: number, y: number) => ({ x, y });
const quad = (left: number, top: number, right: number, bottom: number) => ({
  topLeft: corner(left, top),
  topRight: corner(right, top),
  bottomRight: corner(right, bottom),
  bottomLeft: corner(left, bottom),
});
const FOUND = {
  sheet: quad(10, 10, 90, 90),
  image: quad(20, 20, 80, 80),
  sides: { top: "seen", right: "seen", bottom: "assumed", left: "seen" },
  cornerSpreadPx: 0.5,
};
const GLARE: Reading = {
  name: "glareAreaPercent",
  value: 25,
  reliability: "fair",
  bound: "lower",
  detail: { of: "picture", places: [{ left: 0.5, top: 0.5, width: 0.5, height: 0.5 }] },
};
/** The upper left triangle of the picture, with a legs of 30 px. */
const TRIANGLE = [corner(0, 0), corner(0.5, 0), corner(0, 0.5)];

/** A capture of 100 × 100 px at 254 ppi, so that 10 px are 1 mm. */
function captureWith(readings: readonly Reading[]) {
  const context = emptyCollection();
  const id = measuredCapture(context.db, null, {});
  const sampling: Reading = { name: "samplingPpi", value: 254, reliability: "firm" };
  replaceReadings(context.db, id, "alone", { readings: [sampling, ...readings], basis: { found: [FOUND] }, durationMs: null });
  const page = async () => (await createApp(context).request(`/captures/${id}`)).text();
  return { context, id, page };
}

test("what a measure marked is drawn in the capture's pixels, with its number and size beside its switch", async () => {
  const { context, id, page } = captureWith([GLARE]);
  await writeAreas(context.folder, id, "alone", [{ ...GLARE, area: [{ of: "picture", loops: [TRIANGLE] }] } as Reading]);
  const html = await page();
  expect(html).toContain('viewBox="-0.5 -0.5 100 100"');
  expect(html).toContain('d="M20 20L50 20L20 50Z"');
  expect(html).toMatch(/<input[^>]*id="layer-glare"[^>]*checked/);
  expect(html).toContain("At least 25.0 % shines: 1 place, 3 × 3 mm.");
  expect(html).toContain("3 of 4 sides found as edges of the sheet, 1 assumed (dashed), corners sure to about 0.5 px (0.05 mm).");
});

test("glare that is marked but too faint to be counted is not said to be none", async () => {
  const faint: Reading = { ...GLARE, value: 0 };
  const { context, id, page } = captureWith([faint]);
  await writeAreas(context.folder, id, "alone", [{ ...faint, area: [{ of: "picture", loops: [TRIANGLE] }] } as Reading]);
  const html = await page();
  expect(html).toContain("Seen at 1 place, but too faint to be counted.");
  expect(html).toMatch(/<input[^>]*id="layer-glare"[^>]*checked/);
  expect(html).not.toMatch(/Glare<\/span><p[^>]*>None found/);
});

test("what is mirrored is said beside the switch and with the reading, where its shape tells", async () => {
  const reflections = [{ looksLike: "window", sure: "likely", sharePercent: 25, fourCornered: 0.93, bars: 2 }];
  const words = "By its four corners and straight sides the largest reflection is a window";
  const { page } = captureWith([
    {
      ...GLARE,
      note: `${words}.`,
      detail: { of: "picture", places: [{ left: 0.5, top: 0.5, width: 0.5, height: 0.5 }], reflections },
    } as Reading,
  ]);
  const html = await page();
  expect(html).toMatch(new RegExp(`At least 25\\.0 % shines: 1 place, 3 × 3 mm\\. ${words}, or a screen`));
  expect(html).toContain(`<p class="small">${words}.</p>`);
  expect(html).toContain("Looks like");
  expect(await captureWith([GLARE]).page()).not.toContain("largest reflection");
});

test.each([
  ["is missing", null],
  ["is damaged", "{"],
  ["is of another make", '{"glareAreaPercent":[{"of":"moon","loops":[]}]}'],
])("where the file of areas %s, the boxes round the places are drawn", async (_, text) => {
  const { context, id, page } = captureWith([GLARE]);
  if (text !== null) writeFileSync(derivedPath(context.folder, id, "areas.json"), text);
  expect(await page()).toContain('d="M50 50L80 50L80 80L50 80Z"');
});

test("a hint is not shown until it is asked for, and says that it is one", async () => {
  const { page } = captureWith([{ ...GLARE, reliability: "weak" } as Reading]);
  const html = await page();
  expect(html).toContain('id="layer-glare"');
  expect(html).not.toMatch(/<input[^>]*id="layer-glare"[^>]*checked/);
  expect(html).toContain("A hint only");
});

test("a hint stays one beside what was surely not found", async () => {
  const border = { name: "borderGlarePercent", value: 0, reliability: "firm" } as const;
  const { page } = captureWith([{ ...GLARE, reliability: "weak" } as Reading, border]);
  const html = await page();
  expect(html).toMatch(/<input[^>]*id="layer-glare"/);
  expect(html).not.toMatch(/<input[^>]*id="layer-glare"[^>]*checked/);
  expect(html).toMatch(/shines: 1 place, 3 × 3 mm\. A hint only: look whether it is so\. None on the border\./);
});

test("what was not read has no switch and says why; what was read and not found says so", async () => {
  const { page } = captureWith([
    { name: "ringAreaPercent", absent: "the picture has too much detail" },
    { name: "streakCount", value: 0, reliability: "firm" },
  ]);
  const html = await page();
  expect(html).not.toContain('id="layer-rings"');
  expect(html).toContain("Not read: the picture has too much detail.");
  expect(html).not.toContain('id="layer-streaks"');
  expect(html).toMatch(/Streaks<\/span><p[^>]*>None found\./);
});

test("of a clipped border it is said that neither the figure nor the marks are of it", async () => {
  const border = { all: 73.8, red: 73.8, green: 0, blue: 0 };
  const clipped = { name: "clippedHighlightsPercent", value: 0, reliability: "firm", detail: { border } } as Reading;
  const { page } = captureWith([clipped]);
  const html = await page();
  expect(html).not.toContain('id="layer-highlights"');
  expect(html).toContain("None found. The border, 73.80 % of it clipped, is neither counted nor drawn.");
  expect(await captureWith([{ ...clipped, detail: { border: { ...border, all: 0 } } }]).page()).not.toContain("neither counted nor drawn");
});

test("a bed shows its prints, not what its largest one measures", async () => {
  const { context, id, page } = captureWith([GLARE]);
  replaceReadings(context.db, id, "alone", { readings: [GLARE], basis: { found: [FOUND, FOUND] }, durationMs: null });
  expect(await page()).not.toContain("layer-glare");
});
