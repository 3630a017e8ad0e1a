import path from "node:path";
import type { MeasureName } from "#domain/measure/catalogue.ts";
import { measurePlainFile } from "#server/plain-files/measure-plain-files.ts";
import type { DemoCapture, PrintTruth } from "../../../demo-collection/manifest.ts";
import { DEMO_CAPTURES, readDemoManifest } from "../../../demo-collection/read-manifest.ts";
import { type ToldByName, toldOf } from "../told.ts";

/** A capture of the demo collection, which another program draws, from rendered scenes: what was told of it. */
export type DemoRead = { readonly file: string; readonly told: ToldByName };

/** Those of one print, each file once. */
export const DEMO_CAPTURES_OF_ONE: readonly DemoCapture[] = readDemoManifest().captures.filter(
  ({ truth, sameBytesAs }) => truth.length === 1 && sameBytesAs === null,
);

export async function readDemoCapture({ file, method, truth: [sheet] }: DemoCapture): Promise<DemoRead> {
  if (!sheet) throw new Error(`${file} shows no print`);
  // as a keeper's ruler would say it
  const sheetMm = { widthMm: sheet.sheetWidthMm, heightMm: sheet.sheetHeightMm };
  const measured = await measurePlainFile(path.join(DEMO_CAPTURES, file), { formatId: null, sheetMm, method });
  if (!measured.ok) throw new Error(`${file}: ${measured.refusals[0]?.happened}`);
  return { file, told: toldOf(measured.value.readings) };
}

/** What the program that draws them keeps of each as true. */
export const DEMO_FIGURES: readonly { readonly measure: MeasureName; readonly truth: (sheet: PrintTruth) => number }[] = [
  { measure: "sidesSeen", truth: ({ sidesInFrame }) => sidesInFrame },
  // a print that lies on its side is not skewed
  { measure: "skewDegrees", truth: ({ skewDegrees }) => Math.abs(((((skewDegrees + 45) % 90) + 90) % 90) - 45) },
  { measure: "keystonePercent", truth: ({ keystonePercent }) => keystonePercent },
  { measure: "samplingPpi", truth: ({ ppiX, ppiY }) => Math.min(ppiX, ppiY) },
  { measure: "glareAreaPercent", truth: ({ glarePercent }) => glarePercent },
];

/** What was drawn into some of them and surely not into others; where neither is sure a capture is left out. */
export const DEMO_DEFECTS: readonly {
  readonly what: string;
  readonly measure: MeasureName;
  readonly isDrawn: (capture: DemoCapture) => boolean | null;
}[] = [
  { what: "streaks of a sheet-fed scanner", measure: "streakCount", isDrawn: said("streaks", "sheet-fed-scanner") },
  { what: "banding of a sheet-fed scanner", measure: "bandingDeltaL", isDrawn: said("banding", "sheet-fed-scanner") },
  { what: "interference rings", measure: "ringAreaPercent", isDrawn: said("rings", null) },
  { what: "dust on the glass of a flatbed", measure: "dustPerCm2", isDrawn: said("dust", "flatbed-scanner") },
  { what: "a window, lamp or room mirrored", measure: "glareAreaPercent", isDrawn: ({ truth: [sheet] }) => (sheet?.glarePercent ?? 0) > 0 },
];

/** Named in what is wrong with the capture; only the model of that device can draw it, where one is named. */
function said(word: string, device: DemoCapture["method"] | null) {
  return ({ wrong, method }: DemoCapture): boolean | null => {
    if (wrong?.includes(word)) return true;
    return device === null || method !== device ? false : null;
  };
}
