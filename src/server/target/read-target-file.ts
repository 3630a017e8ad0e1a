import { isFrameSide } from "#domain/measure/frame.ts";
import { SIDES } from "#domain/measure/lines.ts";
import { largestOutline } from "#domain/measure/measure-capture.ts";
import { findOutlines } from "#domain/measure/outline.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import { readEvenSheet } from "#domain/target/even-sheet.ts";
import { type KeptTargetRead, keptEvenness, toKeep } from "#domain/target/kept-read.ts";
import type { TargetLayout } from "#domain/target/layout.ts";
import { readTarget, type TargetRead } from "#domain/target/read-target.ts";
import { readReferenceValues } from "#domain/target/reference-values.ts";
import { readPlainFile } from "../plain-files/read-plain-file.ts";

/** A picture of a target in a file, with what is known of the target. */
export type TargetFile = {
  readonly path: string;
  readonly name: string;
  /** null for a plain sheet that fills the frame */
  readonly layout: TargetLayout | null;
  readonly reference: string | null;
};

/** Reads a target, or the evenness of a plain sheet. Takes as long as measuring a capture: ask for it in a thread where others wait. */
export const readTargetFile = (file: TargetFile): Promise<Outcome<KeptTargetRead>> =>
  file.layout === null ? readSheet(file) : readLaidOut(file, file.layout);

async function readSheet({ path, name }: TargetFile): Promise<Outcome<KeptTargetRead>> {
  const file = await readPlainFile(path, { formatId: null, sheetMm: null, method: null });
  const read = file.ok ? readEvenSheet(file.value.picture) : file;
  return read.ok ? done(keptEvenness(read.value)) : refused(...read.refusals.map((refusal) => ({ ...refusal, about: name })));
}

/** Finds the target in the picture and reads it. */
async function readLaidOut({ path, name, reference }: TargetFile, layout: TargetLayout): Promise<Outcome<KeptTargetRead>> {
  const known = reference === null ? null : readReferenceValues(reference);
  if (known && !known.ok) return known;
  const sheetMm = { widthMm: layout.sheet.widthMm, heightMm: layout.sheet.heightMm };
  const file = await readPlainFile(path, { formatId: null, sheetMm, method: null });
  if (!file.ok) return refused(...file.refusals.map((refusal) => ({ ...refusal, about: name })));
  const { picture, context } = file.value;
  const outline = largestOutline(findOutlines(picture, { ...context, sheetToleranceMm: 1 }));
  if (!outline) return refused(notFound(name));
  if (SIDES.some((side) => outline.sides[side] === "cut-off" && isFrameSide(outline.sheet, side, picture))) return refused(cutOff(name));
  const claimed = { x: context.claimedPpiX, y: context.claimedPpiY };
  const read = readTarget(picture, outline.sheet, layout, known?.value ?? null, claimed);
  return read === null || !isRecognised(read) ? refused(notFound(name)) : done(toKeep(read));
}

/** A picture of something else shows none of the target's edges, and its colours are far from what they should be everywhere. */
const isRecognised = ({ edges, patches }: TargetRead): boolean =>
  edges.some(({ response }) => !("refused" in response)) || patches.some(({ deltaE }) => deltaE !== null && deltaE < FAR_OFF);

/** ΔE2000 beyond which a colour is another one (own figure). */
const FAR_OFF = 25;

const notFound = (about: string): Refusal => ({
  about,
  happened: "The target was not found in the picture.",
  remedy:
    "Lay it on a plain ground of another tone, so that all four of its sides are seen, and check that the layout is that of this target.",
});

const cutOff = (about: string): Refusal => ({
  about,
  happened: "The target is cut off by the frame.",
  remedy: "Take it again with all four of its sides in the picture.",
});
