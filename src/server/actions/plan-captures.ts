import type { Purpose } from "#domain/aim/aim.ts";
import { circumstancesOf } from "#domain/condition/cautions-for.ts";
import { cautionAgainst } from "#domain/condition/method-stop.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import type { Arrangement } from "#domain/plan/arrangement.ts";
import { type Asked, askedOf } from "#domain/plan/asked.ts";
import type { Job, PlannedPrint } from "#domain/plan/job.ts";
import type { JobInput } from "#domain/plan/job-input.ts";
import { type CapturePlan, planCapture } from "#domain/plan/plan-capture.ts";
import type { Extent } from "#domain/plan/sampling.ts";
import { effort, minutesBetweenPrints } from "#domain/plan/time-and-cost.ts";
import { sheetSize } from "#domain/print/dimensions.ts";
import type { Print } from "#domain/print/print.ts";
import { currentAims } from "#drizzle/queries/aims.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { findPrintByNumber, findPrints } from "#drizzle/queries/prints.ts";
import { recaptureTasks } from "#drizzle/queries/recapture.ts";
import { findSetUp, momentsTakenWith } from "#drizzle/queries/set-ups.ts";
import type { Context } from "../context.ts";

export type PlanRequest = {
  readonly arrangement: Arrangement;
  readonly job: JobInput;
  /** where the figures come from, for the pace of its captures so far; null where they were typed alone */
  readonly setUpId: number | null;
  readonly purposeKey: string | null;
};

export type PlannedCaptures = {
  readonly purpose: Purpose;
  readonly asked: Asked;
  readonly of: "print" | "size" | "recapture-list";
  readonly plan: CapturePlan;
  readonly printCount: number;
  /** prints on the list whose size nobody knows, by number */
  readonly withoutSize: readonly string[];
  /** prints that a caution keeps from this way of capturing */
  readonly stopped: readonly { readonly id: number; readonly objectNumber: string; readonly caution: string }[];
  readonly pace: { readonly minutes: number; readonly basis: "typed" | "files"; readonly steps: number | null } | null;
  /** of all prices; null where nobody said */
  readonly currency: string | null;
  /** null where nobody knows how long a print takes */
  readonly effort: ReturnType<typeof effort> | null;
};

/** Works out how a print, a size, or every print on the recapture list is captured with an arrangement. Changes nothing. */
export function planCaptures(context: Context, { arrangement, job, setUpId, purposeKey }: PlanRequest): Outcome<PlannedCaptures> {
  const aims = currentAims(context.db);
  const aim = aims.find(({ purpose }) => purpose.key === purposeKey) ?? aims[0];
  if (!aim) throw new Error("The collection has no aims.");
  const asked = askedOf(aim.limits);
  const found = printsOf(context, job, aim.purpose);
  if (!found.ok) return found;
  const { of, prints } = found.value;
  const sized = prints.flatMap(({ label, size }): PlannedPrint[] => (size ? [{ label, ...size }] : []));
  const planned: Job = { prints: sized, marginMm: job.marginMm, curlMm: job.curlMm, asked };
  const pace = paceOf(context, job, setUpId);
  return done({
    purpose: aim.purpose,
    asked,
    of,
    plan: planCapture(arrangement, planned),
    printCount: sized.length,
    withoutSize: prints.filter(({ size }) => size === null).map(({ label }) => label),
    stopped: stoppedOf(context, found.value.known, arrangement, setUpId),
    pace,
    currency: job.currency,
    effort: pace && effort({ ...job, prints: sized.length, minutesPerPrint: pace.minutes }),
  });
}

/** What is wrong with the number of the print planned for, so that it is told with the other mistakes; nothing where none was written. */
export function refusalsOfPlannedNumber(context: Context, typed: string | null | undefined): Refusal[] {
  const objectNumber = typed?.normalize("NFC").trim();
  if (!objectNumber) return [];
  return printMeant(context, objectNumber) ? [] : [noSuchPrint(objectNumber)];
}

/** A print in the bin is none. */
function printMeant(context: Context, objectNumber: string): Print | null {
  const print = findPrintByNumber(context.db, objectNumber);
  return print && print.binnedAt === null ? print : null;
}

type Meant = { label: string; size: Extent | null };

function printsOf(
  context: Context,
  job: JobInput,
  purpose: Purpose,
): Outcome<{ of: PlannedCaptures["of"]; prints: Meant[]; known: readonly Print[] }> {
  if (job.printWidthMm !== null && job.printHeightMm !== null) {
    const size = { widthMm: job.printWidthMm, heightMm: job.printHeightMm };
    return done({ of: "size", prints: [{ label: "a print of this size", size }], known: [] });
  }
  if (job.objectNumber !== null) {
    const print = printMeant(context, job.objectNumber);
    if (!print) return refused(noSuchPrint(job.objectNumber));
    const size = sheetSize(print);
    return size === null ? refused(noSize(print)) : done({ of: "print", prints: [{ label: print.objectNumber, size }], known: [print] });
  }
  const ids = new Set(recaptureTasks(context.db, purpose.id).map(({ printId }) => printId));
  const prints = findPrints(context.db, [...ids]);
  return done({
    of: "recapture-list",
    prints: prints.map((print) => ({ label: print.objectNumber, size: sheetSize(print) })),
    known: prints,
  });
}

/** The prints that must not be captured this way, each with the gravest caution against it. */
function stoppedOf(
  { db, now }: Context,
  prints: readonly Print[],
  arrangement: Arrangement,
  setUpId: number | null,
): PlannedCaptures["stopped"] {
  const { scanner, camera, glass } = arrangement;
  const named = setUpId === null ? null : findSetUp(db, setUpId);
  const way = {
    method: named?.method ?? (scanner ? "flatbed-scanner" : camera ? "copy-stand-camera" : null),
    hasGlass: glass !== "none",
  } as const;
  const findings = latestFindings(
    db,
    prints.map(({ id }) => id),
  );
  return prints.flatMap((print) => {
    const caution = cautionAgainst(way, circumstancesOf(print, now().slice(0, 10), findings.get(print.id)));
    return caution ? [{ id: print.id, objectNumber: print.objectNumber, caution: caution.title }] : [];
  });
}

const noSuchPrint = (objectNumber: string): Refusal => ({
  about: "objectNumber",
  happened: `There is no print ${objectNumber}.`,
  remedy: "Look the number up in the list of prints, or write a size instead.",
});

const noSize = (print: Print): Refusal => ({
  about: "objectNumber",
  happened: `The size of ${print.objectNumber} is not known.`,
  remedy: "Measure it and write it in its record, choose its format there, or write a size here instead.",
});

function paceOf(context: Context, job: JobInput, setUpId: number | null): PlannedCaptures["pace"] {
  if (job.minutesPerPrint !== null) return { minutes: job.minutesPerPrint, basis: "typed", steps: null };
  const told = setUpId === null ? null : minutesBetweenPrints(momentsTakenWith(context.db, setUpId));
  return told && { minutes: told.minutes, basis: "files", steps: told.steps };
}
