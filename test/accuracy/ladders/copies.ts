import { isPresent, type Reading } from "#domain/measure/reading.ts";
import { captureFinePrint, type FineCapture, type FineCaptured } from "../../fixtures/fine-captures.ts";
import { editedFine } from "../../fixtures/fine-edits.ts";
import { readingsOf, savedAsJpeg } from "../../fixtures/fine-sets.ts";
import { finePrintOf } from "./fine-print.ts";

/** What an editor does to a file before it is saved again, from little to much. */
type Copying = { readonly what: string; readonly copyOf: (captured: FineCaptured) => Promise<FineCaptured> };

const jpeg = (quality: number): Copying => ({ what: `saved as JPEG of quality ${quality}`, copyOf: (one) => savedAsJpeg(one, quality) });
const resized = (scale: number): Copying => ({
  what: `made smaller, to ${100 * scale} %, and saved as JPEG of quality 95`,
  copyOf: async (one) => savedAsJpeg(await editedFine(one, { scale }), 95),
});
const lightened = (gamma: number): Copying => ({
  what: `lightened by a gamma of ${gamma} and saved as JPEG of quality 95`,
  copyOf: async (one) => savedAsJpeg(await editedFine(one, { gamma }), 95),
});
/** No multiple of eight, so that the blocks of both files lie otherwise. */
const cropped = (cutPx: number): Copying => ({
  what: `cropped by ${cutPx} px all round and saved as JPEG of quality 95`,
  copyOf: async (one) => savedAsJpeg(await editedFine(one, { cutPx }), 95),
});

export const COPYINGS: readonly Copying[] = [
  ...[95, 90, 85, 80, 75, 70, 60].map(jpeg),
  ...[0.9, 0.7, 0.5].map(resized),
  ...[0.9, 0.7].map(lightened),
  ...[3, 13].map(cropped),
  {
    what: "cropped by 5 px, lightened by a gamma of 0.85, made smaller, to 80 %",
    copyOf: (one) => editedFine(one, { cutPx: 5, gamma: 0.85, scale: 0.8 }),
  },
];

/** What is said of a capture and the copies of it: told as the same exposure, only to share noise with another, nothing, or not read. */
export type Bond = "same" | "shared" | "none" | "absent";

/** What is said of a capture beside its copy, and of another exposure beside both, which is a copy of neither. */
export type Copied = { readonly what: string; readonly seed: number; readonly ofSource: Bond; readonly ofBystander: Bond };

/** The bystander is made with the same set-up, the print in the same place of the frame, with noise of its own. */
export async function copyAt({ what, copyOf }: Copying, seed: number): Promise<Copied> {
  const print = finePrintOf(seed);
  const setUp: FineCapture = { ppi: 300, blurMm: 0.06, noiseCodes: 2 + (seed % 3), noiseSeed: seed, turnDeg: 1, cornersOffMm: 0.1 };
  const [source, bystander] = [captureFinePrint(print, setUp), captureFinePrint(print, { ...setUp, noiseSeed: seed + 500 })];
  const [ofSource, ofBystander] = (await readingsOf([source, bystander, await copyOf(source)])).map(bondOf);
  return { what, seed, ofSource: ofSource ?? "absent", ofBystander: ofBystander ?? "absent" };
}

function bondOf(readings: readonly Reading[]): Bond {
  const reading = readings.find(({ name }) => name === "savedAgainCount");
  if (!isPresent(reading)) return "absent";
  if (reading.value > 0) return "same";
  return reading.detail?.sharesNoiseWith ? "shared" : "none";
}
