import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Reading } from "#domain/measure/reading.ts";
import { findMeasureSet, replaceReadings } from "#drizzle/queries/measures.ts";
import { layingEnded } from "#server/actions/lay-side-of-print.ts";
import { sharp } from "#server/images/policy.ts";
import { openCollection } from "#server/open-collection.ts";
import { serve } from "#server/serve.ts";
import { writeAreas } from "#server/work/areas-file.ts";
import { keptPrint } from "../fixtures/captured-print.ts";
import { SMALL } from "../fixtures/captured-sheet.ts";
import { drawCapture, keepCapture } from "../fixtures/laid-captures.ts";
import { launchBrowser } from "./browser.ts";

// What the comparison puts on the screen, against what was drawn: one pair, the second half as bright and sampled otherwise.

const PPI = [200, 150] as const;
const AREA = [
  {
    of: "sheet" as const,
    loops: [
      [
        { x: 0.2, y: 0.2 },
        { x: 0.4, y: 0.2 },
        { x: 0.2, y: 0.4 },
      ],
    ],
  },
];
const PLACES = [0.1, 0.3, 0.5, 0.7, 0.9].flatMap((at) => [
  { across: at, down: 0, sfr50CyPerMm: 3 + at },
  { across: 0, down: at, sfr50CyPerMm: 3 + at },
]);
const READ: readonly Reading[] = [
  { name: "glareAreaPercent", value: 3, reliability: "fair", area: AREA },
  { name: "dustPerCm2", value: 1, reliability: "fair", area: AREA },
  { name: "evennessPercent", value: 10, reliability: "fair" },
  {
    name: "borderLightnessSpreadPercent",
    value: 3,
    reliability: "fair",
    detail: { corners: { topLeft: 1, topRight: 0.9, bottomRight: 0.9, bottomLeft: 1 }, centre: 1 },
  },
  { name: "sfr50CyPerMm", value: 3, reliability: "fair", detail: { curves: [{ cyPerMm: [0, 3, 6], modulation: [1, 0.5, 0.1] }] } },
  { name: "focusFalloffPercent", value: 20, reliability: "fair", detail: { places: PLACES } },
  {
    name: "streakCount",
    value: 1,
    reliability: "firm",
    detail: { streaks: [{ line: "down the frame", fromFrameEdgeMm: 12, widthMm: 0.2, deltaL: 2 }] },
  },
];

const SIZE = { width: 1200, height: 1000 };
/** So small that pixel for pixel both captures are larger than the whole print on it. */
const SMALL_SIZE = { width: 640, height: 480 };
let browser: Browser;
let page: Page;
let address = "";
let end = async () => {};

beforeAll(async () => {
  const folder = mkdtempSync(path.join(tmpdir(), "solander-test-"));
  const context = openCollection(folder);
  const printId = keptPrint(context.db, "1978.001", { sheetWidthMm: SMALL.widthMm, sheetHeightMm: SMALL.heightMm });
  for (const [index, ppi] of PPI.entries()) {
    const gain = index === 0 ? 1 : 0.5;
    const drawn = drawCapture({ seed: 2611, noiseSeed: index, ppi, turnDeg: index, cast: [gain, gain, gain] });
    const id = await keepCapture(context, printId, drawn, `capture-${index + 1}.png`);
    const found = findMeasureSet(context.db, id, "alone");
    if (!found) throw new Error("the capture was not kept as measured");
    replaceReadings(context.db, id, "alone", { readings: READ, basis: { found: [drawn.outline] }, durationMs: null });
    await writeAreas(context.folder, id, "alone", READ);
  }
  const serving = await serve(context, { port: 0 });
  if (!serving.ok) throw new Error(serving.refusals[0]?.happened);
  address = `${serving.value.url}/prints/${printId}/compare`;
  await fetch(address);
  await layingEnded();
  browser = await launchBrowser();
  page = await browser.newPage({ viewport: SIZE });
  end = async () => {
    await browser.close();
    await layingEnded();
    await serving.value.stop();
    context.close();
    rmSync(folder, { recursive: true, force: true });
  };
}, 240_000);

afterAll(() => end());

/** The comparison anew. */
async function open(size = SIZE, pixelsPerPagePixel = 1): Promise<Page> {
  const screen = await page.context().newCDPSession(page);
  await screen.send("Emulation.setDeviceMetricsOverride", { ...size, deviceScaleFactor: pixelsPerPagePixel, mobile: false });
  await page.goto(address);
  await page.locator("#stage[tabindex='0']").waitFor({ timeout: 60_000 });
  await page.waitForFunction(() => document.querySelectorAll("#stage canvas").length === 2);
  return page;
}

const meanOf = async (png: Buffer) => {
  const { channels } = await sharp(png).removeAlpha().greyscale().stats();
  return channels[0]?.mean ?? Number.NaN;
};

// 96 px of the page are an inch (CSS Values and Units 4, 6.2): a capture of 200 ppi, pixel for pixel, is 200 / 96 of print size.
test.each([1, 2])(
  "where %d pixels of the screen make one of the page, c shows one pixel of the capture on one of the screen",
  async (ratio) => {
    await open(SMALL_SIZE, ratio);
    expect(await page.evaluate(() => devicePixelRatio)).toBe(ratio);
    const percent = async () => Number.parseFloat((await page.locator("[data-scale]").textContent()) ?? "");
    for (const [index, ppi] of PPI.entries()) {
      await page.locator("#stage").focus();
      await page.keyboard.press(String(index + 1));
      await page.keyboard.press("f");
      await page.keyboard.press("c");
      const expected = (100 * ppi) / 96 / ratio;
      // corners that are found a little off make the sampling a little off
      await expect.poll(async () => Math.abs((await percent()) / expected - 1)).toBeLessThan(0.02);
    }
  },
  120_000,
);

test("on a phone's first screen a whole picture is seen, and size and tones are a tap away", async () => {
  const phone = { width: 390, height: 844 };
  await open(phone);
  const picture = await page.locator(".comparison-picture").first().boundingBox();
  expect((picture?.y ?? Number.NaN) + (picture?.height ?? Number.NaN)).toBeLessThan(phone.height);
  const printSize = page.getByRole("button", { name: /^Print size/ });
  expect(await printSize.isVisible()).toBe(false);
  await page.getByText("Size and tones").click();
  expect(await printSize.isVisible()).toBe(true);
  await open();
  expect(await printSize.isVisible()).toBe(true);
});

test("what the line wipes over is the other capture: left of it the brighter one, right of it the darker", async () => {
  await open();
  await page.locator("#stage").focus();
  await page.keyboard.press("w");
  await page.locator("#stage[data-view='wipe']").waitFor();
  const box = await page.locator(".comparison-pane[data-role='over'] .comparison-picture").boundingBox();
  if (!box) throw new Error("no pane lies over the other");
  const middle = { x: box.x + box.width / 2 - 20, y: box.y + box.height / 2 - 60, width: 40, height: 120 };
  const meanWithLineAt = async (percent: number) => {
    await page.locator("[data-wipe-at]").fill(String(percent));
    return meanOf(await page.screenshot({ clip: middle }));
  };
  await expect.poll(async () => (await meanWithLineAt(80)) - (await meanWithLineAt(20))).toBeGreaterThan(15);
}, 120_000);

test("close-ups of the picture with the reference's tones are as bright as the reference's own, of a capture half as bright", async () => {
  await open();
  const squares = await page
    .locator("img[data-matched]")
    .evaluateAll((all) => all.map((each) => [each.getAttribute("data-plain") ?? "", each.getAttribute("data-matched") ?? ""] as const));
  const brightness = async (source: string) => meanOf(await (await page.request.get(new URL(source, address).href)).body());
  expect(squares).toHaveLength(8);
  // inside the picture: tones are matched by what it shows, and the paper beside it is brighter than all of that
  for (let at = 4; at < squares.length; at += 2) {
    const [reference, other] = [squares[at] as readonly [string, string], squares[at + 1] as readonly [string, string]];
    const [asked, plain, matched] = [await brightness(reference[0]), await brightness(other[0]), await brightness(other[1])];
    expect(asked - plain, other[0]).toBeGreaterThan(5);
    expect(Math.abs(matched - asked), other[1]).toBeLessThan(2);
  }
}, 120_000);

test("contrast, lightness, sharpness both ways and streaks are plotted, a line for each capture", async () => {
  await open();
  for (const id of ["plot-sfr", "plot-lightness", "plot-focus-across", "plot-focus-down", "plot-streaks"]) {
    const plot = page.locator(`section[aria-labelledby="${id}"]`);
    expect(await plot.locator("svg").first().isVisible(), id).toBe(true);
    expect(await plot.locator("caption").count(), id).toBe(2);
  }
}, 120_000);

test.each(["glare", "dust", "evenness"])(
  "%s is drawn over both captures when it is switched on, and only then",
  async (layer) => {
    await open();
    const shown = () =>
      page
        .locator(`.comparison-pane .layer.layer-${layer}`)
        .evaluateAll((all) => all.filter((each) => getComputedStyle(each).display !== "none" && each.childElementCount > 0).length);
    await page.getByText("Draw what was measured over the captures").click();
    expect(await shown()).toBe(0);
    await page.locator(`#layer-${layer}`).check();
    expect(await shown()).toBe(2);
  },
  120_000,
);
