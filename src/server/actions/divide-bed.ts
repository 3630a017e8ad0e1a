import { outlinesInBasis, regionAround } from "#domain/capture/bed.ts";
import { frameOf, type Region } from "#domain/capture/capture.ts";
import { whyNoOutline } from "#domain/capture/corners.ts";
import { IS_PUT_AWAY } from "#domain/capture/put-away.ts";
import { eachCorner } from "#domain/measure/lines.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import { type CaptureWithOriginal, findCapture, insertCapture, setCaptureDivided } from "#drizzle/queries/captures.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findMeasureSet } from "#drizzle/queries/measures.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import { enqueueCompare, enqueueMeasure, forgetMeasure } from "#drizzle/queries/work.ts";
import type { Context } from "../context.ts";

export type DivideBed = {
  captureId: number;
  /**
   * `outline` counts the prints found in the bed from 0; those left out do not become captures. `corners` are those that a person
   * moved, in the bed's pixels; a part that was not found has nothing but them.
   */
  parts: { outline: number | null; corners?: Quad | null; printId: number | null /** what its form calls it */; number?: number }[];
};

type Part = { region: Region; printId: number | null; saidOutline: Quad | null };

/** Makes a capture of each print on a bed. The original stays one file; each part is a region of it. */
export function divideBed(context: Context, input: DivideBed): Outcome<{ captureIds: number[] }> {
  const bed = findCapture(context.db, input.captureId);
  if (!bed) return refused(problem("captureId", "This capture does not exist.", "Go back to the tray and choose another."));
  const refusals = whyNot(context, bed, input);
  if (refusals.length > 0) return refused(...refusals);

  const outlines = outlinesInBasis(findMeasureSet(context.db, bed.id, "alone")?.basis ?? null);
  const frame = bed.region ?? { left: 0, top: 0, width: bed.original.widthPx, height: bed.original.heightPx };
  const parts = input.parts.flatMap(({ outline, corners, printId }): Part[] => {
    const sheet = corners ?? (outline === null ? undefined : outlines[outline]);
    if (!sheet) return [];
    const region = regionAround(sheet, frame);
    const [left, top] = [region.left - frame.left, region.top - frame.top];
    return [{ region, printId, saidOutline: corners ? movedBy(corners, -left, -top) : null }];
  });
  const captureIds = context.db.transaction((tx) => {
    setCaptureDivided(tx, bed.id);
    forgetMeasure(tx, bed.id);
    if (bed.printId !== null) enqueueCompare(tx, bed.printId, bed.side);
    const made = parts.map(({ region, printId, saidOutline }, index) => {
      const { originalId, side, method, methodBasis, setUpId, saidDay } = bed;
      const part = insertCapture(tx, { originalId, printId, side, method, methodBasis, setUpId, saidDay, region, saidOutline });
      enqueueMeasure(tx, part.id);
      const detail = { bed: bed.id, originalName: `${bed.name} (part ${index + 1} of ${parts.length})`, region };
      recordEvent(tx, {
        userId: context.userId,
        at: context.now(),
        verb: "taken in",
        subject: "capture",
        subjectId: part.id,
        printId,
        detail,
      });
      return part.id;
    });
    const event = { userId: context.userId, at: context.now(), verb: "divided", subject: "capture" as const, subjectId: bed.id };
    recordEvent(tx, { ...event, printId: bed.printId, detail: { parts: made } });
    return made;
  });
  context.nudgeWork();
  return done({ captureIds });
}

function whyNot(context: Context, bed: CaptureWithOriginal, input: DivideBed): Refusal[] {
  if (bed.divided)
    return [problem("captureId", "This bed has been divided already.", "Look for its parts in the tray or with their prints.")];
  if (bed.putAwayAt !== null) return [IS_PUT_AWAY];
  if (input.parts.length === 0) return [problem("parts", "No print of the bed was chosen.", "Choose at least one of the prints found.")];
  const found = outlinesInBasis(findMeasureSet(context.db, bed.id, "alone")?.basis ?? null).length;
  const refusals: Refusal[] = [];
  const chosen = new Set<number>();
  for (const [index, { outline, corners, printId, number = (outline ?? index) + 1 }] of input.parts.entries()) {
    const wrong = corners && whyNoOutline(corners, frameOf(bed));
    if (wrong) refusals.push({ about: `part${number}-corners`, ...wrong });
    if (outline === null) {
      if (!corners) refusals.push(problem("parts", "A part without an outline was named.", "Set its corners."));
    } else if (outline < 0 || outline >= found || !Number.isInteger(outline)) {
      const remedy = found === 0 ? "Wait until the bed has been measured, then divide it." : `Choose from prints 1 to ${found}.`;
      refusals.push(problem("parts", `Print ${outline + 1} was not found in this bed.`, remedy));
    }
    if (outline !== null && chosen.has(outline))
      refusals.push(problem("parts", `Print ${outline + 1} of the bed was chosen twice.`, "Choose each print once."));
    if (outline !== null) chosen.add(outline);
    if (printId === null) continue;
    const print = findPrint(context.db, printId);
    if (!print || print.binnedAt !== null)
      refusals.push(
        problem("parts", `Part ${number} names a print that is not there.`, "Choose another print, or leave the part in the tray."),
      );
  }
  return refusals;
}

const problem = (about: string, happened: string, remedy: string): Refusal => ({ about, happened, remedy });

const movedBy = (quad: Quad, across: number, down: number): Quad => eachCorner(quad, ({ x, y }) => ({ x: x + across, y: y + down }));
