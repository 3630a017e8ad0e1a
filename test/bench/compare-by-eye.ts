import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import type { Hono } from "hono";
import { eachCorner } from "#domain/measure/lines.ts";
import { findCapture } from "#drizzle/queries/captures.ts";
import { replaceReadings } from "#drizzle/queries/measures.ts";
import { layingEnded } from "#server/actions/lay-side-of-print.ts";
import { createApp } from "#server/app.ts";
import { originalPath } from "#server/collection-folder.ts";
import type { Context } from "#server/context.ts";
import { sharp } from "#server/images/policy.ts";
import { openCollection } from "#server/open-collection.ts";
import { serve } from "#server/serve.ts";
import { launchBrowser } from "../browser/browser.ts";
import { keptPrint, measuredCapture } from "../fixtures/captured-print.ts";
import { SMALL } from "../fixtures/captured-sheet.ts";
import {
  type DrawnCapture,
  dotsSeenMm,
  dotted,
  drawCapture,
  keepCapture,
  quantile,
  servedGrey,
  toldIn,
} from "../fixtures/laid-captures.ts";

// Prints how exactly captures lie on each other in the pictures that are served, by dots at known places of drawn prints (25 each, on
// border and picture), and how long looking takes. Run: npx tsx test/bench/compare-by-eye.ts [registration] [times].
// The prints 71 to 74 are drawn for nothing else. Found corners are off by up to 0.15 mm.

const ENLARGED_PX = 60e6;
const SIZE = { sheetWidthMm: SMALL.widthMm, sheetHeightMm: SMALL.heightMm };
const asked = process.argv.slice(2);

if (asked.length === 0 || asked.includes("registration")) await registration();
if (asked.length === 0 || asked.includes("times")) await times();
process.exit(0);

async function registration(): Promise<void> {
  const others: Readonly<Record<string, Parameters<typeof drawCapture>[0]>> = {
    "as it lay, 300 ppi": { seed: 71, ppi: 300, turnDeg: -1 },
    "keystone 6 % and 3 %, 4 degrees": { seed: 72, ppi: 220, turnDeg: 4, keystoneAcross: 0.06, keystoneDown: 0.03 },
    "a quarter turned, 160 ppi": { seed: 73, ppi: 160, turnDeg: 90 },
    "120 ppi, soft, noisy": { seed: 74, ppi: 120, turnDeg: 2, blurPx: 1, noise: 1.5 },
  };
  console.log("| other capture, beside one of 240 ppi | dots apart, mm: median | 95 % | worst |\n| --- | --- | --- | --- |");
  const every: number[] = [];
  for (const [name, other] of Object.entries(others)) {
    await inCollection(async (context) => {
      const printId = keptPrint(context.db, "1", SIZE);
      const one = drawCapture({ seed: other?.seed ?? 1, noiseSeed: 1, ppi: 240, turnDeg: 2, defects: [dotted] });
      await keepCapture(context, printId, one, "one.png");
      await keepCapture(context, printId, drawCapture({ ...other, noiseSeed: 2, defects: [dotted] }), "other.png");
      const app = createApp(context);
      const { canvas, captures } = toldIn(await laidPage(app, printId));
      const seen = await Promise.all(captures.map(async (each) => dotsSeenMm(await servedGrey(app, each), canvas, each)));
      const apart = (seen[0] ?? []).map((dot, at) => Math.hypot(dot.x - (seen[1]?.[at]?.x ?? 99), dot.y - (seen[1]?.[at]?.y ?? 99)));
      every.push(...apart);
      console.log(`| ${name} | ${[0.5, 0.95, 1].map((share) => quantile(apart, share).toFixed(3)).join(" | ")} |`);
    });
  }
  console.log(`| all | ${[0.5, 0.95, 1].map((share) => quantile(every, share).toFixed(3)).join(" | ")} |`);
}

/** Two TIFFs of 60 megapixels: a drawn capture enlarged, since only its size counts here. */
async function times(): Promise<void> {
  await inCollection(async (context) => {
    const printId = keptPrint(context.db, "1", SIZE);
    for (const turnDeg of [1, -1])
      await keepEnlarged(context, printId, drawCapture({ seed: 75, noiseSeed: turnDeg + 2, ppi: 150, turnDeg }));
    const start = performance.now();
    await laidPage(createApp(context), printId);
    const laidS = (performance.now() - start) / 1000;
    console.log(`\ntwo TIFFs of 60 MP laid in ${laidS.toFixed(1)} s; peak memory ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`);
    const serving = await serve(context, { port: 0 });
    if (!serving.ok) throw new Error(serving.refusals[0]?.happened);
    const browser = await launchBrowser();
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    const rows: number[][] = [];
    for (let round = 0; round < 5; round++) {
      await page.goto(`${serving.value.url}/prints/${printId}`);
      await page.getByRole("link", { name: "Compare by eye" }).click();
      await page.waitForFunction(() => {
        const canvas = document.querySelector<HTMLCanvasElement>("#stage canvas");
        const drawn = canvas?.width ? canvas.getContext("2d")?.getImageData(canvas.width / 2, canvas.height / 2, 1, 1).data[3] : 0;
        return Boolean(drawn);
      });
      // from the click: the navigation begins with it
      const first = await page.evaluate(() => performance.now());
      await page.waitForLoadState("networkidle");
      const sharpest = await page.evaluate(() =>
        Math.max(
          ...performance
            .getEntriesByType("resource")
            .map((each) =>
              (each as PerformanceResourceTiming).name.includes("/tiles/") ? (each as PerformanceResourceTiming).responseEnd : 0,
            ),
        ),
      );
      await page.locator("#stage").focus();
      const zoomed = await page.evaluate(async () => {
        const [stage, before] = [document.querySelector("#stage") as HTMLElement, performance.now()];
        stage.dispatchEvent(new KeyboardEvent("keydown", { key: "c", bubbles: true }));
        await new Promise((done) => setTimeout(done, 3000));
        const ends = performance.getEntriesByType("resource").map((each) => (each as PerformanceResourceTiming).responseEnd);
        return Math.max(...ends.filter((end) => end > before)) - before;
      });
      const flip = await page.evaluate(async () => {
        const [stage, before] = [document.querySelector("#stage") as HTMLElement, performance.now()];
        stage.dispatchEvent(new KeyboardEvent("keydown", { key: "2", bubbles: true }));
        await new Promise(requestAnimationFrame);
        await new Promise(requestAnimationFrame);
        return performance.now() - before;
      });
      const again = await page.evaluate(async () => {
        const [stage, before] = [document.querySelector("#stage") as HTMLElement, performance.now()];
        stage.dispatchEvent(new KeyboardEvent("keydown", { key: " ", bubbles: true }));
        await new Promise(requestAnimationFrame);
        await new Promise(requestAnimationFrame);
        return performance.now() - before;
      });
      rows.push([first, sharpest, zoomed, flip, again]);
    }
    const middle = (column: number) =>
      `${Math.round(
        quantile(
          rows.map((row) => row[column] as number),
          0.5,
        ),
      )} ms`;
    console.log(`from click to first tile drawn ${middle(0)}, to all tiles of the whole print ${middle(1)} (medians of 5)`);
    console.log(`from key to all tiles at one pixel of the capture to one of the screen ${middle(2)}`);
    console.log(`from key to one capture alone ${middle(3)}, from key to the next capture in its place ${middle(4)} (two frames included)`);
    await browser.close();
    await serving.value.stop();
  });
}

async function keepEnlarged(context: Context, printId: number, { picture, outline }: DrawnCapture): Promise<void> {
  const { widthPx, heightPx, codes } = picture;
  const times = Math.sqrt(ENLARGED_PX / (widthPx * heightPx));
  const made = { widthPx: Math.round(widthPx * times), heightPx: Math.round(heightPx * times) };
  const id = measuredCapture(context.db, printId, {}, { kind: "tiff", ...made });
  const file = originalPath(context.folder, findCapture(context.db, id)?.original.sha256 ?? "");
  mkdirSync(path.dirname(file), { recursive: true });
  await sharp(codes, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .resize(made.widthPx, made.heightPx, { fit: "fill" })
    .tiff({ compression: "lzw", predictor: "horizontal" })
    .toFile(file);
  const larger = (quad: typeof outline.sheet) =>
    eachCorner(quad, ({ x, y }) => ({ x: (x + 0.5) * times - 0.5, y: (y + 0.5) * times - 0.5 }));
  const found = [{ ...outline, sheet: larger(outline.sheet), image: outline.image && larger(outline.image) }];
  replaceReadings(context.db, id, "alone", { readings: [], basis: { found }, durationMs: null });
}

/** The page once its captures are laid. */
async function laidPage(app: Hono, printId: number): Promise<string> {
  await app.request(`/prints/${printId}/compare`);
  await layingEnded();
  return (await app.request(`/prints/${printId}/compare`)).text();
}

async function inCollection(use: (context: Context) => Promise<void>): Promise<void> {
  const directory = mkdtempSync(path.join(tmpdir(), "solander-bench-"));
  const context = openCollection(directory, { name: "Bench" });
  try {
    await use(context);
  } finally {
    context.close();
    rmSync(directory, { recursive: true, force: true });
  }
}
