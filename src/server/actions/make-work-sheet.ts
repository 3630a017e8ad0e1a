import type { Purpose } from "#domain/aim/aim.ts";
import type { Method } from "#domain/capture/method.ts";
import { circumstancesOf, contraIndication } from "#domain/condition/cautions-for.ts";
import { done, type Outcome, refused } from "#domain/outcome.ts";
import { ALL_PRINTS } from "#domain/print/print-filter.ts";
import { adviceForMethod, methodToUse } from "#domain/recapture/advice.ts";
import type { RecaptureLine } from "#domain/recapture/recapture-line.ts";
import { recapturePriority } from "#domain/recapture/recapture-priority.ts";
import { inSheetOrder } from "#domain/recapture/sheet-order.ts";
import type { WorkSheetInput } from "#domain/recapture/work-sheet-input.ts";
import { pathInWords } from "#domain/storage/place-tree.ts";
import type { Queryable } from "#drizzle/client.ts";
import { listPurposes } from "#drizzle/queries/aims.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { filesOfPrints } from "#drizzle/queries/files-of-prints.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { findPlace, placePath } from "#drizzle/queries/places.ts";
import { listPrints } from "#drizzle/queries/prints.ts";
import { recaptureList } from "#drizzle/queries/recapture.ts";
import { insertWorkSheet, type NewRow, waitingSides } from "#drizzle/queries/work-sheets.ts";
import { careList } from "../care/care-list.ts";
import type { Context } from "../context.ts";
import { measuredReasons } from "../recapture/measured-reasons.ts";

export type WorkSheetMade = {
  readonly sheetId: number;
  readonly rows: number;
  /** sides left out because they wait on another sheet of the purpose */
  readonly onOtherSheets: number;
  /** sides left out because the sheet is full */
  readonly lessUrgent: number;
};

/**
 * Turns the recapture list, as it is now, into a work sheet that is kept. What waits on another sheet of the same purpose already is
 * left out, so that nothing is fetched twice.
 */
export function makeWorkSheet(context: Context, input: WorkSheetInput): Outcome<WorkSheetMade> {
  const { db } = context;
  const purposes = listPurposes(db);
  const purpose = input.purpose === "" ? purposes[0] : purposes.find(({ key }) => key === input.purpose);
  if (!purpose) return refused({ about: "purpose", happened: "This purpose does not exist.", remedy: "Choose one from the list." });
  if (input.placeId !== null && !findPlace(db, input.placeId))
    return refused({ about: "placeId", happened: "This place does not exist.", remedy: "Choose one from the list." });
  const waiting = waitingSides(db, purpose.id);
  const asked = linesOf(context, purpose, input);
  const lines = asked.filter(({ printId, side }) => !waiting.has(`${printId} ${side}`));
  const onOtherSheets = asked.length - lines.length;
  if (lines.length === 0) return refused(nothingToDo(onOtherSheets));
  const rows = inSheetOrder(rowsOf(context, lines, input));
  const at = context.now();
  const name = input.name ?? nameOf(db, purpose, input, at);
  return db.transaction((tx) => {
    const kept = rows.map(({ objectNumber: _, ...row }) => row);
    const sheetId = insertWorkSheet(tx, { name, purposeId: purpose.id, userId: context.userId, createdAt: at, rows: kept });
    const detail = { name, rows: rows.length };
    recordEvent(tx, { at, userId: context.userId, verb: "made", subject: "work-sheet", subjectId: sheetId, detail });
    return done({ sheetId, rows: rows.length, onOtherSheets, lessUrgent: lines.length - rows.length });
  });
}

function linesOf({ db, now }: Context, purpose: Purpose, { placeId, why }: WorkSheetInput): RecaptureLine[] {
  const prints = listPrints(db, { ...ALL_PRINTS, placeId, perPage: null }).rows;
  const lines = recaptureList(db, now().slice(0, 10), { purposes: [purpose], prints });
  return why === null ? lines : lines.filter((line) => line.why === why);
}

type Row = NewRow & {
  readonly objectNumber: string;
  readonly method: NonNullable<NewRow["method"]> | null;
  readonly setUpName: string | null;
};

/** What is read of each capture is asked for the most urgent lines alone: it is the dear part. */
function rowsOf(context: Context, lines: readonly RecaptureLine[], { placeId, most }: WorkSheetInput): Row[] {
  const { db } = context;
  const ids = lines.map(({ printId }) => printId);
  const today = context.now().slice(0, 10);
  const prints = new Map(listPrints(db, { ...ALL_PRINTS, placeId, perPage: null }).rows.map((print) => [print.id, print]));
  const care = new Map(careList(context, { ...ALL_PRINTS, placeId }).map(({ print, priority }) => [print.id, priority]));
  const findings = latestFindings(db, ids);
  const files = filesOfPrints(db, ids);
  const judged = lines.flatMap((line) => {
    const [print, priority] = [prints.get(line.printId), care.get(line.printId)];
    return print && priority ? [{ line, print, priority: recapturePriority(line, priority) }] : [];
  });
  return mostUrgent(judged, most).map(({ line, print, priority }): Row => {
    const { printId, side, placePath, objectNumber, best } = line;
    const circumstances = circumstancesOf(print, today, findings.get(printId));
    const refusal = (each: Method) => contraIndication(each, circumstances);
    const method = methodToUse({ method: best?.method ?? null, refusal });
    const measured = { ...line, reasons: measuredReasons(db, best?.captureId ?? null, line.reasons) };
    const { reasons, advice } = adviceForMethod(measured, method, refusal);
    return {
      printId,
      side,
      objectNumber,
      placePath: [...placePath],
      method,
      setUpName: best?.method === method ? (best?.setUpName ?? null) : null,
      priority,
      reasons: [...reasons],
      advice: [...advice],
      captureId: best?.captureId ?? null,
      knownCaptureIds: (files.get(printId) ?? [])
        .filter((file) => file.side === side && !file.isMeasuring)
        .map(({ captureId }) => captureId),
    };
  });
}

/** Of many the most urgent, whatever their place. */
const mostUrgent = <Judged extends Pick<Row, "priority">>(judged: readonly Judged[], most: number): Judged[] =>
  judged.toSorted((a, b) => b.priority.score - a.priority.score || b.priority.most - a.priority.most).slice(0, most);

function nameOf(db: Queryable, purpose: Purpose, { placeId }: WorkSheetInput, at: string): string {
  const where = placeId === null ? "" : `, ${pathInWords(placePath(db, placeId))}`;
  return `${purpose.name}${where}, ${at.slice(0, 10)}`;
}

const nothingToDo = (onOtherSheets: number) => ({
  about: null,
  happened:
    onOtherSheets > 0 ? "All that is to be captured again waits on a work sheet already." : "Nothing is to be captured again there.",
  remedy: onOtherSheets > 0 ? "Go on with that sheet, or choose more." : "Choose another place or purpose.",
});
