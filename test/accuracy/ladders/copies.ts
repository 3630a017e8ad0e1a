import type { FineCaptured } from "../../fixtures/fine-captures.ts";
import { editedFine } from "../../fixtures/fine-edits.ts";
import { savedAsJpeg } from "../../fixtures/fine-sets.ts";

/** What an editor does to a file before it is saved again, from little to much. */
export type Copying = { readonly what: string; readonly copyOf: (captured: FineCaptured) => Promise<FineCaptured> };

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
