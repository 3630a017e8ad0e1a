import path from "node:path";
import { fileURLToPath } from "node:url";
import { sharp } from "#server/images/policy.ts";
import { shownOverlays } from "#server/overlays/shown-overlays.ts";
import { type MeasuredFile, measurePlainFile } from "#server/plain-files/measure-plain-files.ts";
import { assetRoutes } from "#server/routes/assets.ts";
import { OVERLAY_LABELS, type OverlayId, Overlays, type ShownOverlay } from "#views/parts/overlays.tsx";
import { launchBrowser } from "../test/browser/browser.ts";
import { DEMO_CAPTURES, readDemoManifest } from "./read-manifest.ts";

/**
 * Draws what the measures find over captures of the demo collection, each with the outline, as a capture's page draws it, on one sheet:
 * screens/what-is-found.jpg. Each file is measured as `measure` measures it, alone. Run: npx tsx demo-collection/contact-sheet.tsx
 */

const TARGET = fileURLToPath(new URL("./screens/what-is-found.jpg", import.meta.url));
const PAGE_PX = { width: 1284, height: 900 };
/** Of one picture with its caption; the picture is as large as it fits. */
const CELL_PX = { width: 392, height: 344 };
const MOST_BYTES = 400_000;

const SHOWN: readonly { readonly file: string; readonly overlay: OverlayId }[] = [
  { file: "1994.001.01_phone-1.jpg", overlay: "outline" },
  { file: "1981.002.02_phone-1.jpg", overlay: "outline" },
  { file: "1956.003.05_phone-2.jpg", overlay: "glare" },
  { file: "1938.002.02_sheet-fed-1.jpg", overlay: "streaks" },
  { file: "1976.001.01_flatbed-1.jpg", overlay: "dust" },
  { file: "1987.005.02_flatbed-1.jpg", overlay: "rings" },
  { file: "1968.001.02_phone-1.jpg", overlay: "highlights" },
  { file: "1974.004.01_flatbed-1.jpg", overlay: "sharpness" },
  { file: "2021.001.01_phone-1.jpg", overlay: "evenness" },
];

type Seen = MeasuredFile & {
  readonly name: string;
  readonly label: string;
  readonly overlays: readonly ShownOverlay[];
  readonly picture: string;
};

const seen: Seen[] = [];
for (const { file, overlay } of SHOWN) seen.push(await seenIn(file, overlay));
const style = await (await assetRoutes().request("/assets/style.css")).text();
const browser = await launchBrowser();
const page = await browser.newPage({ viewport: PAGE_PX, deviceScaleFactor: 1.25 });
await page.setContent(`<!doctype html><html lang="en"><head><style>${style}</style></head><body>${<Sheet />}</body></html>`);
await page.evaluate(() => Promise.all([...document.images].map((image) => image.decode())));
const shot = await page.locator("main").screenshot();
await browser.close();
const { size } = await sharp(shot).jpeg({ quality: 82, mozjpeg: true }).toFile(TARGET);
if (size > MOST_BYTES) throw new Error(`${TARGET} has ${size} bytes, more than ${MOST_BYTES}`);
console.log(`${TARGET}: ${size} bytes`);

async function seenIn(name: string, overlay: OverlayId): Promise<Seen> {
  const planned = readDemoManifest().captures.find((capture) => capture.file === name);
  const sheet = planned?.truth[0];
  if (!planned || !sheet) throw new Error(`${name} is no capture of the demo collection`);
  const file = path.join(DEMO_CAPTURES, name);
  const sheetMm = { widthMm: sheet.sheetWidthMm, heightMm: sheet.sheetHeightMm };
  const measured = await measurePlainFile(file, { formatId: null, sheetMm, method: planned.method });
  if (!measured.ok) throw new Error(measured.refusals[0]?.happened);
  const { value } = measured;
  const wanted: readonly OverlayId[] = ["outline", "picture", overlay];
  const overlays = shownOverlays({ frame: value, outline: value.outline, readings: value.readings, areas: new Map() }).filter(
    ({ id, drawing }) => wanted.includes(id) && drawing !== null,
  );
  if (!overlays.some(({ id }) => id === overlay)) throw new Error(`${name} shows nothing of: ${overlay}`);
  const small = await sharp(file)
    .rotate()
    .resize({ width: 2 * CELL_PX.width, height: 2 * CELL_PX.height, fit: "inside" })
    .jpeg({ quality: 92 })
    .toBuffer();
  return { ...value, name, label: OVERLAY_LABELS[overlay], overlays, picture: `data:image/jpeg;base64,${small.toString("base64")}` };
}

function Sheet() {
  return (
    <main style="display: grid; grid-template-columns: repeat(3, minmax(0, 1fr)); gap: 12px; padding: 12px; background: var(--desk)">
      {seen.map((one) => {
        const scale = Math.min(CELL_PX.width / one.widthPx, CELL_PX.height / one.heightPx);
        return (
          <figure class="capture-view" style="margin: 0; padding: 8px; grid-template-rows: 1fr auto; row-gap: 6px">
            <div class="capture-view-picture">
              <img src={one.picture} alt="" style={`width: ${scale * one.widthPx}px; height: ${scale * one.heightPx}px`} />
              <Overlays widthPx={one.widthPx} heightPx={one.heightPx} overlays={one.overlays} on={one.sha256.slice(0, 8)} />
            </div>
            <figcaption class="small" style="margin: 0; white-space: nowrap">
              <strong>{one.label}</strong> {one.name}
            </figcaption>
          </figure>
        );
      })}
    </main>
  );
}
