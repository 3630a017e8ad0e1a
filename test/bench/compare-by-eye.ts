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
import { launchAsInstalled } from "../browser/browser.ts";
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
/** A person has looked at a page before the next is asked for. */
const AT_REST_MS = 1500;
const WHOLE = "as sharp as a pane shows them";
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
    const browser = await launchAsInstalled();
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    const rows: Record<string, number>[] = [];
    for (let round = 0; round < 5; round++) {
      await page.goto(`${serving.value.url}/prints/${printId}`);
      await page.waitForLoadState("networkidle");
      await page.waitForTimeout(AT_REST_MS);
      await page.getByRole("link", { name: "Compare by eye" }).click();
      const drawn = await page.waitForFunction(() => {
        const canvas = document.querySelector<HTMLCanvasElement>("#stage canvas");
        const isDrawn = canvas?.width && canvas.getContext("2d")?.getImageData(canvas.width / 2, canvas.height / 2, 1, 1).data[3];
        // from the click: the navigation begins with it
        return isDrawn ? performance.now() : 0;
      });
      const first = (await drawn.jsonValue()) as number;
      await page.waitForLoadState("networkidle");
      const { answered, asked } = await page.evaluate(() => ({
        answered: (performance.getEntriesByType("navigation")[0] as PerformanceNavigationTiming).responseEnd,
        asked: performance.getEntriesByType("resource").map((each) => {
          const { name, startTime, responseEnd } = each as PerformanceResourceTiming;
          return { name, startTime, responseEnd };
        }),
      }));
      const starts = (part: string) => asked.filter(({ name }) => name.includes(part)).map(({ startTime }) => startTime);
      const ends = (part: string) => asked.filter(({ name }) => name.includes(part)).map(({ responseEnd }) => responseEnd);
      const parts = {
        answered,
        scripts: Math.max(...ends("/assets/")),
        whole: Math.max(...ends("/whole.jpg")),
        tilesAsked: Math.min(...starts("/tiles/")),
        tileCame: Math.min(...ends("/tiles/")),
        allTiles: Math.max(...ends("/tiles/")),
      };
      const key = (pressed: string) =>
        page.evaluate(async (name) => {
          const before = performance.now();
          document.querySelector("#stage")?.dispatchEvent(new KeyboardEvent("keydown", { key: name, bubbles: true }));
          await new Promise(requestAnimationFrame);
          await new Promise(requestAnimationFrame);
          return performance.now() - before;
        }, pressed);
      const before = await page.evaluate(() => performance.now());
      await key("c");
      await page.waitForTimeout(AT_REST_MS);
      const zoomed = await page.evaluate((since) => {
        const ends = performance.getEntriesByType("resource").map((each) => (each as PerformanceResourceTiming).responseEnd);
        return Math.max(...ends.filter((end) => end > since)) - since;
      }, before);
      rows.push({ ...parts, first, zoomed, alone: await key("2"), flip: await key(" ") });
    }
    const told = (of: string) => {
      const values = rows.map((row) => row[of] as number);
      return `${Math.round(quantile(values, 0.5))} ms (at most ${Math.round(Math.max(...values))})`;
    };
    console.log(`\n| from click | median of ${rows.length} |\n| --- | --- |`);
    console.log(`| page answered | ${told("answered")} |`);
    console.log(`| scripts there | ${told("scripts")} |`);
    console.log(`| pictures of the whole there, ${WHOLE} | ${told("whole")} |`);
    console.log(`| first tile asked for | ${told("tilesAsked")} |`);
    console.log(`| first tile there | ${told("tileCame")} |`);
    console.log(`| first tile drawn | ${told("first")} |`);
    console.log(`| all tiles of the whole print there | ${told("allTiles")} |`);
    console.log(`\nfrom key to all tiles at one pixel of the capture to one of the screen ${told("zoomed")}`);
    console.log(`from key to one capture alone ${told("alone")}, from key to the next in its place ${told("flip")} (two frames included)`);
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
