import { stands } from "#domain/capture/capture.ts";
import type { Queryable } from "#drizzle/client.ts";
import { findCapture, listCapturesOfPrint } from "#drizzle/queries/captures.ts";
import { replaceFingerprints } from "#drizzle/queries/fingerprints.ts";
import { forgetReadings, replaceReadings } from "#drizzle/queries/measures.ts";
import { enqueueCompare, enqueueMeasure, failWork, finishWork, holdsWork, returnWork, type Work } from "#drizzle/queries/work.ts";
import { originalPath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import type { Answer, Job } from "./job.ts";
import { knownContext } from "./measure-context.ts";

/** A piece of work whose thread failed is tried once more, in case the machine was short of memory. */
const MOST_FAULTS = 2;

/** What a thread needs to do a piece of work; null when its subject is gone. */
export function jobOf(context: Context, work: Work): Job | null {
  if (work.kind === "compare") {
    const captures = capturesOfSide(context.db, work).map(({ id, original, region }) => ({
      id,
      original: { path: originalPath(context.folder, original.sha256), kind: original.kind },
      region,
    }));
    return { kind: "compare", folder: context.folder, captures };
  }
  const capture = findCapture(context.db, work.captureId);
  if (!capture || !stands(capture)) return null;
  return {
    kind: "measure",
    folder: context.folder,
    captureId: capture.id,
    original: {
      path: originalPath(context.folder, capture.original.sha256),
      kind: capture.original.kind,
      widthPx: capture.original.widthPx,
      heightPx: capture.original.heightPx,
    },
    region: capture.region,
    known: knownContext(context.db, capture),
  };
}

/**
 * Writes down what a piece of work brought, in one transaction. The row itself stays open: the caller finishes it once the
 * print is judged, so that a crash in between leads to the work being done again and never to a print without a choice.
 * @returns the print that is now measured as far as it can be; null when none is, or more is to come
 */
export function settle(context: Context, work: Work, job: Job, answer: Answer): number | null {
  return context.db.transaction((tx) => {
    if (!holdsWork(tx, work)) return null;
    const now = context.now();
    if ("fault" in answer && work.attempts < MOST_FAULTS) returnWork(tx, work.id);
    else if ("fault" in answer) {
      failWork(
        tx,
        work.id,
        `The program met a fault of its own: ${answer.fault.split("\n")[0]?.slice(0, 300)}. Measure it again; if it fails again, report it.`,
        now,
      );
      return printOf(tx, work);
    } else if ("unreadable" in answer) {
      failWork(tx, work.id, answer.unreadable, now);
      return printOf(tx, work);
    } else if ("measured" in answer && job.kind === "measure") return settleMeasured(tx, work, job, answer.measured, now);
    else if ("compared" in answer && work.kind === "compare") {
      for (const { captureId, readings } of answer.compared)
        replaceReadings(tx, captureId, "together", {
          readings,
          basis: { captureIds: answer.compared.map((each) => each.captureId) },
          durationMs: null,
        });
      return work.printId;
    }
    return null;
  });
}

function settleMeasured(
  tx: Queryable,
  work: Work,
  job: Job & { kind: "measure" },
  measured: Extract<Answer, { measured: unknown }>["measured"],
  now: string,
) {
  const capture = findCapture(tx, job.captureId);
  if (!capture) return null;
  // The print or its size changed meanwhile: what was read rests on what is no longer so.
  if (JSON.stringify(knownContext(tx, capture)) !== JSON.stringify(job.known)) {
    finishWork(tx, work, now);
    enqueueMeasure(tx, capture.id);
    return null;
  }
  const basis = { outlines: measured.outlines.map(({ sheet }) => sheet), found: measured.outlines, known: job.known };
  replaceReadings(tx, capture.id, "alone", { readings: measured.readings, basis, durationMs: measured.durationMs });
  replaceFingerprints(tx, capture.id, measured.fingerprints);
  if (capture.printId === null) {
    forgetReadings(tx, capture.id, "together");
    return null;
  }
  if (capturesOfSide(tx, { printId: capture.printId, side: capture.side }).length > 1) {
    enqueueCompare(tx, capture.printId, capture.side);
    return null;
  }
  forgetReadings(tx, capture.id, "together");
  return capture.printId;
}

/** A print whose capture could not be measured is judged all the same: it may have to be captured again. */
const printOf = (db: Queryable, work: Work): number | null =>
  work.kind === "compare" ? work.printId : (findCapture(db, work.captureId)?.printId ?? null);

const capturesOfSide = (db: Queryable, { printId, side }: { printId: number; side: string }) =>
  listCapturesOfPrint(db, printId).filter((capture) => capture.side === side);
