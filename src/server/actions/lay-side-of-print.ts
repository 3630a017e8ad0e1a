import { createHash, randomUUID } from "node:crypto";
import { readdir, readFile, rm } from "node:fs/promises";
import path from "node:path";
import type { Side } from "#domain/capture/capture.ts";
import type { LaidSide } from "#domain/comparison/laid-side.ts";
import { standingOutline } from "#domain/measure/kept-outlines.ts";
import { sheetSize } from "#domain/print/dimensions.ts";
import type { Print } from "#domain/print/print.ts";
import { type CaptureWithOriginal, listCapturesOfPrint } from "#drizzle/queries/captures.ts";
import { listChoicesOfPrint } from "#drizzle/queries/choices.ts";
import { findMeasureSet } from "#drizzle/queries/measures.ts";
import { laidFolder, originalPath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import type { CaptureOfSide, Job } from "../work/job.ts";
import { knownContext } from "../work/measure-context.ts";
import { MOST_MS, runAlone, Thread } from "../work/thread.ts";

/** Raised when the way of laying captures is altered, so that what was kept is made anew. */
const VERSION = 6;
/** Bounds time and disk: masters first, then the newest. */
const MOST_LAID = 8;

export type Laying =
  /** basis: names what is kept, and changes with whatever it rests on */
  { readonly laid: LaidSide; readonly basis: string } | { readonly done: number; readonly of: number } | { readonly refused: string };

type LayJob = Extract<Job, { kind: "lay" }>;

/**
 * A side's captures as they lie on each other; where that is not made yet, or no longer holds, making it begins in a thread of its own,
 * one side at a time, and how far it is is answered.
 */
export async function laySideOfPrint(context: Context, print: Print, side: Side): Promise<Laying> {
  const { basis, ...toLay } = whatToLay(context, print, side);
  if (toLay.captures.length < 2) return { refused: "there are not two captures of this side yet" };
  const laid = await keptLaidSide(toLay.target);
  if (laid) return { laid, basis };
  const refused = refusals.get(toLay.target);
  if (refused) return { refused };
  const making = underWay.get(toLay.target) ?? begin(context, { kind: "lay", folder: context.folder, ...toLay });
  const files = await readdir(making).catch(() => []);
  return { done: files.filter((name) => /^\d+\.jpg$/.test(name)).length, of: toLay.captures.length };
}

/**
 * A laid side by its name, without asking whether it still holds: its pictures are asked for by the page that was made from it. Null
 * where there is none, or it was cut when the machine went down: it is made anew then.
 */
export async function keptLaidSide(folder: string): Promise<LaidSide | null> {
  try {
    return JSON.parse(await readFile(path.join(folder, "laid.json"), "utf8")) as LaidSide;
  } catch {
    return null;
  }
}

/** Lets a side be laid again that was refused. */
export function forgetRefusal(context: Context, print: Print, side: Side): void {
  refusals.delete(whatToLay(context, print, side).target);
}

/** Settles when nothing is being laid. */
export const layingEnded = (): Promise<unknown> => turn;

/** Laying many at once would fill the memory. */
let turn: Promise<unknown> = Promise.resolve();
/** the folder in which each target is being made */
const underWay = new Map<string, string>();
/** kept while the program runs, so that a page that looks again does not begin again */
const refusals = new Map<string, string>();

function begin(context: Context, job: Omit<LayJob, "making">): string {
  const making = `${job.target}.${process.pid}-${randomUUID()}`;
  underWay.set(job.target, making);
  turn = turn
    .then(() => (context.ending.aborted ? undefined : make({ ...job, making }, context.ending)))
    .catch((error) => {
      console.error(error);
      refusals.set(job.target, FAULT);
    })
    .finally(() => underWay.delete(job.target));
  return making;
}

const FAULT = "the program met a fault of its own while it laid them on each other; try again, and report it if it stays";

async function make(job: LayJob, ending: AbortSignal): Promise<void> {
  const answer = await runAlone(new Thread(undefined, MOST_MS * job.captures.length), job, ending);
  if ("laid" in answer && !("refused" in answer.laid)) return dropOthersOf(job.target);
  await rm(job.making, { recursive: true, force: true });
  if (ending.aborted) return;
  if ("fault" in answer) console.error(answer.fault);
  refusals.set(
    job.target,
    "unreadable" in answer ? answer.unreadable : "laid" in answer && "refused" in answer.laid ? answer.laid.refused : FAULT,
  );
}

/** What was laid for the same side before no longer holds. */
async function dropOthersOf(target: string): Promise<void> {
  const folder = path.dirname(target);
  const [name, side] = [path.basename(target), path.basename(target).replace(/[0-9a-f]{32}$/, "")];
  const others = (await readdir(folder)).filter((each) => each.startsWith(side) && each !== name);
  for (const each of others) await rm(path.join(folder, each), { recursive: true, force: true });
}

function whatToLay(context: Context, print: Print, side: Side): Pick<LayJob, "target" | "sheetMm" | "captures"> & { basis: string } {
  const captures = capturesToLay(context, print, side).map((capture) => captureOfSide(context, capture));
  const sheet = sheetSize(print);
  const sheetMm = sheet && { widthMm: sheet.widthMm, heightMm: sheet.heightMm };
  const basis = basisOf(captures, sheetMm);
  return { target: laidFolder(context.folder, { printId: print.id, side }, basis), sheetMm, captures, basis };
}

/** At most as many as are laid, in the order they were taken in. */
function capturesToLay(context: Context, print: Print, side: Side): CaptureWithOriginal[] {
  const captures = listCapturesOfPrint(context.db, print.id).filter((capture) => capture.side === side);
  const masters = new Set(listChoicesOfPrint(context.db, print.id).map(({ captureId }) => captureId));
  const rank = ({ id }: CaptureWithOriginal) => (masters.has(id) ? Number.POSITIVE_INFINITY : id);
  return captures
    .toSorted((a, b) => (rank(b) > rank(a) ? 1 : -1))
    .slice(0, MOST_LAID)
    .sort((a, b) => a.id - b.id);
}

function captureOfSide(context: Context, capture: CaptureWithOriginal): CaptureOfSide {
  const { sheetWidthMm, sheetHeightMm, imageWidthMm, imageHeightMm } = knownContext(context.db, capture);
  const { id, original, region } = capture;
  return {
    id,
    original: { path: originalPath(context.folder, original.sha256), kind: original.kind },
    region,
    frame: region ?? { left: 0, top: 0, width: original.widthPx, height: original.heightPx },
    outline: standingOutline(capture.saidOutline, findMeasureSet(context.db, id, "alone")),
    sizes: { sheetWidthMm, sheetHeightMm, imageWidthMm, imageHeightMm },
  };
}

/** Everything that laying rests on but where the collection's folder lies. */
function basisOf(captures: readonly CaptureOfSide[], sheetMm: LayJob["sheetMm"]): string {
  const facts = captures.map(({ original, ...rest }) => ({ ...rest, sha256: original.path.slice(-64) }));
  return createHash("sha256")
    .update(JSON.stringify([VERSION, sheetMm, facts]))
    .digest("hex")
    .slice(0, 32);
}
