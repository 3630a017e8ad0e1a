import { rm } from "node:fs/promises";
import type { Quad } from "#domain/measure/picture.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import type { TargetCheckInput } from "#domain/target/check-input.ts";
import { targetName } from "#domain/target/layout.ts";
import { findOriginalBySha256, insertOriginal } from "#drizzle/queries/captures.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findSetUp } from "#drizzle/queries/set-ups.ts";
import { deleteTargetCheck, findTargetCheck, insertTargetCheck, setCheckOutline } from "#drizzle/queries/target-checks.ts";
import { originalPath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import { readToItsEnd } from "../images/decode.ts";
import { type CopiedIn, keep, keptBytes } from "../intake/copy-in.ts";
import { inspect } from "../intake/inspect.ts";
import { readInThread } from "../target/read-in-thread.ts";
import { NOT_FOUND } from "../target/read-target-file.ts";

export type CheckTarget = {
  setUpId: number;
  copied: CopiedIn;
  name: string;
  input: TargetCheckInput;
  /** corners of the target, px; null: they are looked for */
  saidSheet: Quad | null;
  /** a target that was not found is kept all the same, for somebody to set its corners; refused where not */
  mayWait: boolean;
};

/**
 * Reads a picture of a test target, or of an even sheet, and keeps it with the set-up it was taken with: the file as an original that is no capture, and what
 * it proved. The copy is taken away again whatever happens.
 */
export async function checkTarget(context: Context, check: CheckTarget): Promise<Outcome<{ checkId: number; isRead: boolean }>> {
  const { setUpId, copied, name, input, saidSheet, mayWait } = check;
  const { path, sha256, bytes } = copied;
  try {
    const inspected = await inspect(path, name, readToItsEnd);
    if (!inspected.ok) return inspected;
    const read = await readInThread({ path, name, layout: input.layout, reference: input.reference, saidSheet }, context.ending);
    if (!read.ok) return read;
    if (read.value === null && !mayWait) return refused({ about: name, ...NOT_FOUND });
    if ((await keptBytes(context.folder, sha256)) !== bytes) {
      const kept = await keep(context.folder, copied, name);
      if (!kept.ok) return kept;
    }
    const { facts } = inspected.value;
    return context.db.transaction((tx) => {
      const setUp = findSetUp(tx, setUpId);
      if (!setUp) return refused(NO_SET_UP);
      const original = findOriginalBySha256(tx, sha256) ?? insertOriginal(tx, { ...facts, originalName: name, sha256, bytes });
      const takenOn = input.takenOn || facts.capturedAt?.slice(0, 10) || context.now().slice(0, 10);
      const { layout, reference, referenceName, note } = input;
      const checkId = insertTargetCheck(tx, {
        setUpId,
        originalId: original.id,
        takenOn,
        layout,
        reference,
        referenceName,
        saidOutline: saidSheet,
        read: read.value,
        note,
        userId: context.userId,
        createdAt: context.now(),
      });
      tell(tx, context, read.value ? "target checked" : "target check kept unread", setUpId, {
        originalName: name,
        sha256,
        target: targetName(layout),
        takenOn,
      });
      return done({ checkId, isRead: read.value !== null });
    });
  } finally {
    await rm(path, { force: true });
  }
}

/** Takes a check away, as one made with the wrong target. Its file is kept, as every original is, and the history tells of both. */
export function takeOutCheck(context: Context, checkId: number): Outcome<{ setUpId: number }> {
  return context.db.transaction((tx) => {
    const check = findTargetCheck(tx, checkId);
    if (!check) return refused(GONE);
    deleteTargetCheck(tx, checkId);
    const { setUpId, original, layout, takenOn } = check;
    tell(tx, context, "target check taken out", setUpId, {
      originalName: original.originalName,
      sha256: original.sha256,
      target: targetName(layout),
      takenOn,
    });
    return done({ setUpId });
  });
}

/** Reads the target of a check anew within the corners that a person set, whether it was found before or not. */
export async function outlineCheck(context: Context, checkId: number, corners: Quad): Promise<Outcome<{ setUpId: number }>> {
  const check = findTargetCheck(context.db, checkId);
  if (!check?.layout) return refused(GONE);
  const { layout, reference, original, setUpId, takenOn } = check;
  const path = originalPath(context.folder, original.sha256);
  const read = await readInThread({ path, name: original.originalName, layout, reference, saidSheet: corners }, context.ending);
  if (!read.ok) return read;
  return context.db.transaction((tx) => {
    if (!read.value || !findTargetCheck(tx, checkId)) return refused(GONE);
    setCheckOutline(tx, checkId, corners, read.value);
    const { originalName, sha256 } = original;
    tell(tx, context, "target check outlined", setUpId, { originalName, sha256, target: layout.name, takenOn, corners });
    return done({ setUpId });
  });
}

const GONE: Refusal = { about: null, happened: "This check is not there any more.", remedy: "Nothing has to be done." };

function tell(
  tx: Parameters<typeof recordEvent>[0],
  { now, userId }: Context,
  verb: string,
  setUpId: number,
  detail: Record<string, unknown>,
) {
  recordEvent(tx, { at: now(), userId, verb, subject: "set-up", subjectId: setUpId, detail });
}

const NO_SET_UP: Refusal = { about: null, happened: "This set-up does not exist.", remedy: "Choose another from the list." };
