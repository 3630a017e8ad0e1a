import { isDeepStrictEqual } from "node:util";
import { circumstancesOf, contraIndication } from "#domain/condition/cautions-for.ts";
import { judgedRow, knownAfter } from "#domain/recapture/judged-row.ts";
import { reasonsOf } from "#domain/recapture/list.ts";
import type { Queryable } from "#drizzle/client.ts";
import { findCapture } from "#drizzle/queries/captures.ts";
import type { NewChoice } from "#drizzle/queries/choices.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { isSaidOf, standingExemptions } from "#drizzle/queries/exemptions.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import { rowsOfSide, updateRow, type WorkSheetRow } from "#drizzle/queries/work-sheets.ts";
import type { Context } from "../context.ts";
import { measuredReasons } from "../recapture/measured-reasons.ts";

/** Closes the rows of work sheets that a new choice fulfils, and opens those again that its newest capture does not, or of which "good enough" lapsed. */
export function settleWorkSheetRows(tx: Queryable, context: Pick<Context, "now">, made: NewChoice): void {
  const judged = { captureId: made.captureId, bestId: made.explanation.bestId, verdicts: made.explanation.verdicts };
  const known = knownAfter(judged.verdicts);
  const isExempt = standingExemptions(tx, [made.printId]).some((said) => isSaidOf(said, made));
  for (const row of rowsOfSide(tx, made)) {
    const change = judgedRow({ ...row, isExempt }, judged);
    if (!isDeepStrictEqual(known, row.knownCaptureIds)) updateRow(tx, row.id, { knownCaptureIds: known });
    if (change === null) continue;
    const at = context.now();
    const fileName = change.captureId === null ? null : (findCapture(tx, change.captureId)?.original.originalName ?? null);
    const told = { at, userId: null, subject: "work-sheet" as const, subjectId: row.sheetId, printId: row.printId };
    if (change.to === "closed") {
      updateRow(tx, row.id, { state: "closed", changedAt: at, closedByCaptureId: change.captureId });
      recordEvent(tx, { ...told, verb: "row closed", detail: { side: row.side, fileName } });
      continue;
    }
    const reasons = reasonsNow(tx, context, row, change);
    updateRow(tx, row.id, {
      state: "open",
      changedAt: at,
      openedAgainAt: at,
      closedByCaptureId: null,
      captureId: change.captureId,
      reasons,
    });
    recordEvent(tx, {
      ...told,
      verb: "row opened again",
      detail: { side: row.side, fileName, reasons: reasons.map(({ sentence }) => sentence) },
    });
  }
}

type Short = Extract<NonNullable<ReturnType<typeof judgedRow>>, { to: "open" }>;

/** Why it must be captured once more, in the words of the recapture list. */
function reasonsNow(tx: Queryable, context: Pick<Context, "now">, row: WorkSheetRow, { captureId, shortfalls }: Short) {
  const print = findPrint(tx, row.printId);
  if (!print) return row.reasons;
  const circumstances = circumstancesOf(print, context.now().slice(0, 10), latestFindings(tx, [print.id]).get(print.id));
  const method = captureId === null ? null : (findCapture(tx, captureId)?.method ?? null);
  return measuredReasons(tx, captureId, reasonsOf(shortfalls, { method, refusal: (each) => contraIndication(each, circumstances) }));
}
