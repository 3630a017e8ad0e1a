import { whyNoOutline } from "#domain/capture/corners.ts";
import { isFrameSide } from "#domain/measure/frame.ts";
import { SIDES } from "#domain/measure/lines.ts";
import { largestOutline } from "#domain/measure/measure-capture.ts";
import { median } from "#domain/measure/numbers/robust.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import type { Picture, Quad } from "#domain/measure/picture.ts";
import type { MeasureContext } from "#domain/measure/reading.ts";
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
  /** its corners as a person set them, px; null: they are looked for */
  readonly saidSheet: Quad | null;
};

/**
 * Reads a target, or the evenness of a plain sheet. Takes as long as measuring a capture: ask for it in a thread where others wait.
 * @returns null where the target was looked for and not found
 */
export const readTargetFile = (file: TargetFile): Promise<Outcome<KeptTargetRead | null>> =>
  file.layout === null ? readSheet(file) : readLaidOut(file, file.layout);

async function readSheet({ path, name }: TargetFile): Promise<Outcome<KeptTargetRead>> {
  const file = await readPlainFile(path, { formatId: null, sheetMm: null, method: null });
  const read = file.ok ? readEvenSheet(file.value.picture) : file;
  return read.ok ? done(keptEvenness(read.value)) : refused(...read.refusals.map((refusal) => ({ ...refusal, about: name })));
}

/** Finds the target in the picture, unless somebody has set its corners, and reads it. */
async function readLaidOut(
  { path, name, reference, saidSheet }: TargetFile,
  layout: TargetLayout,
): Promise<Outcome<KeptTargetRead | null>> {
  const known = reference === null ? null : readReferenceValues(reference);
  if (known && !known.ok) return known;
  const sheetMm = { widthMm: layout.sheet.widthMm, heightMm: layout.sheet.heightMm };
  const file = await readPlainFile(path, { formatId: null, sheetMm, method: null });
  if (!file.ok) return refused(...file.refusals.map((refusal) => ({ ...refusal, about: name })));
  const { picture, context } = file.value;
  const problem = saidSheet && whyNoOutline(saidSheet, picture);
  if (problem) return refused({ about: CORNERS_FIELD, ...problem });
  const sheet = saidSheet ?? foundSheet(picture, context, name);
  if (sheet === null) return done(null);
  if ("ok" in sheet) return sheet;
  const claimed = { x: context.claimedPpiX, y: context.claimedPpiY };
  const read = readTarget(picture, sheet, layout, known?.value ?? null, claimed);
  if (read !== null && isRecognised(read)) return done(toKeep(read));
  return saidSheet ? refused(NOTHING_READ) : done(null);
}

/** The largest sheet in the picture; null where there is none, refused where the frame cuts it off. */
function foundSheet(picture: Picture, context: MeasureContext, name: string): Quad | null | ReturnType<typeof refused> {
  const outline = largestOutline(findOutlines(picture, { ...context, sheetToleranceMm: 1 }));
  if (!outline) return null;
  const isCut = SIDES.some((side) => outline.sides[side] === "cut-off" && isFrameSide(outline.sheet, side, picture));
  return isCut ? refused(cutOff(name)) : outline.sheet;
}

/**
 * A picture of something else shows none of the target's edges, and its colours are far from what they should be in most places, or
 * hardly differ where the target's do: within a dark patch that was taken for the sheet all is dark.
 */
function isRecognised({ edges, patches }: TargetRead): boolean {
  if (edges.some(({ response }) => !("refused" in response))) return true;
  const compared = patches.flatMap(({ colour, truth, deltaE }) => (truth && deltaE !== null ? [{ colour, truth, deltaE }] : []));
  const byLightness = compared.toSorted((one, other) => one.truth[0] - other.truth[0]);
  const [darkest, lightest] = [byLightness.at(0), byLightness.at(-1)];
  if (!darkest || !lightest) return false;
  const showsTones = lightest.colour[0] - darkest.colour[0] >= LEAST_TONES * (lightest.truth[0] - darkest.truth[0]);
  return showsTones && median(compared.map(({ deltaE }) => deltaE)) < FAR_OFF;
}

/** ΔE2000 beyond which a colour is another one (own figure). */
const FAR_OFF = 25;
/** From the target's darkest to its lightest patch, the share of the lightness between them that must be seen (own figure). */
const LEAST_TONES = 0.5;

/** Where the target was looked for and not found, and nothing is kept of it. */
export const NOT_FOUND: Omit<Refusal, "about"> = {
  happened: "The target was not found in the picture.",
  remedy:
    "Lay it on a plain ground of another tone, so that all four of its sides are seen, and check that the layout is that of this target; or set its corners by hand.",
};

/** The field that corners set by hand are refused at (corner-editor.tsx). */
export const CORNERS_FIELD = "part1-corners";

const NOTHING_READ: Refusal = {
  about: CORNERS_FIELD,
  happened: "With these corners nothing of the target can be read.",
  remedy: "Set each onto a corner of the target, clockwise from the top left as seen, and check that the layout is that of this target.",
};

const cutOff = (about: string): Refusal => ({
  about,
  happened: "The target is cut off by the frame.",
  remedy: "Take it again with all four of its sides in the picture.",
});
