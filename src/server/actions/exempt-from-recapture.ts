import type { Side } from "#domain/capture/capture.ts";
import { done, type Outcome, refused } from "#domain/outcome.ts";
import type { Queryable } from "#drizzle/client.ts";
import { currentAims, listPurposes } from "#drizzle/queries/aims.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findExemption, insertExemption, setExemptionTakenBack } from "#drizzle/queries/exemptions.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import { recaptureList } from "#drizzle/queries/recapture.ts";
import { rowsOfSide, updateRow } from "#drizzle/queries/work-sheets.ts";
import type { Context } from "../context.ts";

export type Exempted = { readonly printId: number; readonly side: Side; readonly purposeKey: string; readonly reason: string };

/**
 * Takes one side of a print from the recapture list because a person says that it is good enough. It comes back when that is taken
 * back, when the aim gets another version, or when the capture it was said of leaves that side; where there was no capture, when a
 * first one is taken in.
 */
export function exemptFromRecapture(context: Context, { printId, side, purposeKey, reason }: Exempted): Outcome<{ exemptionId: number }> {
  return context.db.transaction((tx) => {
    if (reason.trim() === "")
      return refused({ about: "reason", happened: "No reason was given.", remedy: "Say why, so that the next keeper understands." });
    const aim = currentAims(tx).find(({ purpose }) => purpose.key === purposeKey);
    const print = findPrint(tx, printId);
    const today = context.now().slice(0, 10);
    const lines = aim && print ? recaptureList(tx, today, { purposes: [aim.purpose], prints: [print] }) : [];
    const line = print?.binnedAt === null ? lines.find((each) => each.side === side) : undefined;
    if (!aim || !line)
      return refused({
        about: null,
        happened: "This side is not asked to be captured again.",
        remedy: "Look at the list: it changed meanwhile.",
      });
    const at = context.now();
    const captureId = line.best?.captureId ?? null;
    const exemptionId = insertExemption(tx, {
      printId,
      side,
      purposeId: aim.purpose.id,
      aimId: aim.id,
      captureId,
      reason: reason.trim(),
      userId: context.userId,
      createdAt: at,
    });
    setRows(tx, { printId, side, captureId, purposeId: aim.purpose.id }, { from: ["open", "ticked"], to: "let-go", at });
    const detail = { side, purpose: purposeKey, fileName: line.best?.fileName ?? null, reason: reason.trim(), aimVersion: aim.version };
    recordEvent(tx, { at, userId: context.userId, verb: "exempted", subject: "exemption", subjectId: exemptionId, printId, detail });
    return done({ exemptionId });
  });
}

/** Asks again for what was said to be good enough. */
export function askAgain(context: Context, { exemptionId }: { exemptionId: number }): Outcome<{ printId: number }> {
  return context.db.transaction((tx) => {
    const exemption = findExemption(tx, exemptionId);
    if (!exemption) return refused({ about: null, happened: "This was never said.", remedy: "Look at the list: it changed meanwhile." });
    const { printId, side, captureId, purposeId, takenBackAt } = exemption;
    if (takenBackAt !== null) return done({ printId });
    const at = context.now();
    setExemptionTakenBack(tx, exemptionId, at);
    setRows(tx, { printId, side, captureId, purposeId }, { from: ["let-go"], to: "open", at });
    recordEvent(tx, {
      at,
      userId: context.userId,
      verb: "asked again",
      subject: "exemption",
      subjectId: exemptionId,
      printId,
      detail: { side },
    });
    return done({ printId });
  });
}

type Rows = { readonly printId: number; readonly side: Side; readonly captureId: number | null; readonly purposeId: number };
type Turn = { readonly from: readonly string[]; readonly to: "let-go" | "open"; readonly at: string };

/** Without a capture nothing hangs on a purpose: the rows of every purpose follow. */
function setRows(tx: Queryable, { captureId, purposeId, ...of }: Rows, { from, to, at }: Turn): void {
  const purposeIds = captureId === null ? listPurposes(tx).map(({ id }) => id) : [purposeId];
  const rows = purposeIds.flatMap((each) => rowsOfSide(tx, { ...of, purposeId: each }));
  for (const row of rows.filter(({ state }) => from.includes(state))) updateRow(tx, row.id, { state: to, changedAt: at });
}
