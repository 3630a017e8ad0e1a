import { stands } from "#domain/capture/capture.ts";
import type { CaptureInput } from "#domain/capture/schema.ts";
import { done, type Outcome } from "#domain/outcome.ts";
import { listCapturesOfOriginal } from "#drizzle/queries/captures.ts";
import { fixityOfOriginal, insertFixityCheck } from "#drizzle/queries/fixity.ts";
import { enqueueMeasure } from "#drizzle/queries/work.ts";
import { measuringOfCaptures } from "#drizzle/queries/work-progress.ts";
import { originalPath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import { type CopiedIn, keep, keptBytes } from "../intake/copy-in.ts";
import { hashFile } from "../intake/hash-file.ts";
import { assignCapture } from "./assign-capture.ts";
import type { TakenIn } from "./take-in-capture.ts";

/** Bytes that are here already: a lost or spoilt original is put back, and a capture that waits in the tray gets the print that is said. */
export async function takeInAgain(
  context: Context,
  held: TakenIn,
  { name, copied, ...said }: CaptureInput & { name: string; copied: CopiedIn },
): Promise<Outcome<TakenIn>> {
  const notes = [...held.notes];
  if (!(await isSound(context, held.originalId, copied))) {
    const kept = await keep(context.folder, copied, name);
    if (!kept.ok) return kept;
    context.db.transaction((tx) => {
      insertFixityCheck(tx, { originalId: held.originalId, checkedAt: context.now(), outcome: "unchanged", foundSha256: copied.sha256 });
      for (const capture of listCapturesOfOriginal(tx, held.originalId)) if (stands(capture)) enqueueMeasure(tx, capture.id);
    });
    context.nudgeWork();
    notes.push("The file that was kept was lost or damaged; it has been put back and is measured again.");
  }
  if (said.printId === undefined || said.printId === held.printId) return done({ ...held, notes });
  if (held.printId !== null)
    return done({ ...held, notes: [...notes, "It belongs to another print already; what you said of it was not applied."] });
  const assigned = assignCapture(context, { captureId: held.captureId, printId: said.printId, side: said.side });
  return assigned.ok
    ? done({ ...held, printId: said.printId, notes: [...notes, "It waited in the tray and has its print now."] })
    : assigned;
}

/** Whether the original that is kept is the same: as long, and where there was bad news of it, of the same hash. */
async function isSound(context: Context, originalId: number, { sha256, bytes }: CopiedIn): Promise<boolean> {
  if ((await keptBytes(context.folder, sha256)) !== bytes) return false;
  const checked = fixityOfOriginal(context.db, originalId, 1)[0]?.outcome ?? "unchanged";
  const ids = listCapturesOfOriginal(context.db, originalId).map(({ id }) => id);
  const hasFailed = [...measuringOfCaptures(context.db, ids).values()].some(({ state }) => state === "failed");
  if (checked === "unchanged" && !hasFailed) return true;
  return (await hashFile(originalPath(context.folder, sha256)).catch(() => null)) === sha256;
}
