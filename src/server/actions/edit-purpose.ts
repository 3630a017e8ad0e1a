import { type Aim, isReadyMade } from "#domain/aim/aim.ts";
import { type AimInput, areSameLimits, limitsOf } from "#domain/aim/aim-input.ts";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import { findAim, updatePurpose } from "#drizzle/queries/aims.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import type { Context } from "../context.ts";
import { changedFields } from "./changed-fields.ts";
import { refusalOfName } from "./create-purpose.ts";
import { keepAim } from "./keep-aim.ts";

export type EditPurpose = {
  readonly key: string;
  /** the version that the person saw when they began to type */
  readonly readVersion: number;
  readonly input: AimInput;
  /** what was changed and why */
  readonly changeNote: string | null;
  /** where a file brings its own */
  readonly edition?: string;
};

/**
 * Keeps a new version of a purpose of the keeper's own; earlier versions stay, and choices point at the one they were made with until they
 * are renewed. Ready-made aims stay as published. Refused when somebody else has saved since it was read.
 */
export function editPurpose(context: Context, { key, readVersion, input, ...said }: EditPurpose): Outcome<{ key: string; isNew: boolean }> {
  return context.db.transaction((tx) => {
    const held = findAim(tx, key);
    if (!held) return refused(problem("This purpose does not exist.", "Choose one of the list."));
    if (isReadyMade(key))
      return refused(
        problem(`${held.purpose.name} is ready-made and stays as published.`, "Copy it under a name of your own, and change the copy."),
      );
    if (held.version !== readVersion)
      return refused(
        problem(
          `Somebody else saved version ${held.version} while you were typing.`,
          "Look at that version first; then save again to put yours in its place.",
          "version",
        ),
      );
    const taken = refusalOfName(tx, input.name, held.purpose.id);
    if (taken) return refused(taken);
    const limits = limitsOf(input, [held.limits, ...PUBLISHED_AIMS.map((aim) => aim.limits)]);
    const edition = said.edition ?? held.edition;
    const note = input.note || null;
    const changed = changedFields(held.purpose, { name: input.name, note });
    if (Object.keys(changed.to).length > 0) {
      updatePurpose(tx, held.purpose.id, { name: input.name, note });
      recordEvent(tx, { ...eventOn(context, held), verb: "edited", detail: changed });
    }
    const isSame = held.name === input.asks && held.edition === edition && areSameLimits(held.limits, limits);
    if (!isSame)
      keepAim(tx, context, held.purpose, { version: held.version + 1, asks: input.asks, edition, note: said.changeNote, limits });
    return done({ key, isNew: !isSame });
  });
}

/** Sets a purpose of the keeper's own aside, so that nothing is chosen for it any more, or takes it up again. What was chosen stays. */
export function setPurposeAside(context: Context, key: string, isAside: boolean): Outcome<{ key: string }> {
  const held = findAim(context.db, key);
  if (!held || isReadyMade(key)) return refused(problem("Only a purpose of your own can be set aside.", "Ready-made ones stay in use."));
  return context.db.transaction((tx) => {
    updatePurpose(tx, held.purpose.id, { setAsideAt: isAside ? context.now() : null });
    recordEvent(tx, { ...eventOn(context, held), verb: isAside ? "set aside" : "taken up", detail: { purpose: key } });
    return done({ key });
  });
}

const eventOn = ({ now, userId }: Pick<Context, "now" | "userId">, { id }: Aim) =>
  ({ at: now(), userId, subject: "aim", subjectId: id }) as const;

const problem = (happened: string, remedy: string, about: string | null = null): Refusal => ({ about, happened, remedy });
