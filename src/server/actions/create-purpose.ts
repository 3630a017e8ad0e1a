import { type AimInput, limitsOf, MOST_PURPOSES } from "#domain/aim/aim-input.ts";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import type { Queryable } from "#drizzle/client.ts";
import { findAim, insertPurpose, listAllPurposes } from "#drizzle/queries/aims.ts";
import type { Context } from "../context.ts";
import { keepAim } from "./keep-aim.ts";

/** Adds a purpose of the keeper's own. Masters are chosen for it when choices are renewed. */
export function createPurpose(context: Context, { edition, ...input }: AimInput & { edition: string }): Outcome<{ key: string }> {
  return context.db.transaction((tx) => {
    const purposes = listAllPurposes(tx);
    if (purposes.length >= MOST_PURPOSES)
      return refused({
        about: null,
        happened: `There are ${MOST_PURPOSES} purposes already.`,
        remedy: "Change one of those that are set aside.",
      });
    const taken = refusalOfName(tx, input.name, null);
    if (taken) return refused(taken);
    const key = freeKey(input.name, new Set(purposes.map((purpose) => purpose.key)));
    const purpose = insertPurpose(tx, { key, name: input.name, note: input.note || null });
    const limits = limitsOf(
      input,
      PUBLISHED_AIMS.map((aim) => aim.limits),
    );
    keepAim(tx, context, purpose, { version: 1, asks: input.asks, edition, note: null, limits });
    return done({ key });
  });
}

/** Copies a purpose, ready-made or own, with its aim as it is now, under another name. */
export function copyPurpose(context: Context, of: { key: string; name: string }): Outcome<{ key: string }> {
  const aim = findAim(context.db, of.key);
  if (!aim) return refused({ about: null, happened: "This purpose does not exist.", remedy: "Choose one of the list." });
  const limits = Object.fromEntries(aim.limits.map(({ measure, provedBy: _, ...limit }) => [measure, limit]));
  return createPurpose(context, {
    name: of.name,
    note: aim.purpose.note ?? "",
    asks: aim.name,
    limits,
    edition: `Copied from ${aim.purpose.name}, version ${aim.version} (${aim.edition})`,
  });
}

/** Two purposes never share a name, however it is written. */
export function refusalOfName(db: Queryable, name: string, ownId: number | null): Refusal | null {
  const folded = (text: string) => text.trim().toLocaleLowerCase("en");
  const taken = listAllPurposes(db).find((purpose) => purpose.id !== ownId && folded(purpose.name) === folded(name));
  return taken
    ? {
        about: "name",
        happened: `There is already a purpose called ${taken.name}${taken.isAside ? ", which is set aside" : ""}.`,
        remedy: "Choose another name.",
      }
    : null;
}

/** What addresses and programs call it: letters and digits of the name, made different where it is taken. */
function freeKey(name: string, taken: ReadonlySet<string>): string {
  const plain =
    name
      .normalize("NFKD")
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "-")
      .replace(/^-+|-+$/g, "")
      .slice(0, 50) || "purpose";
  // “edit” and the like would be read as a page
  const base = `own-${plain}`;
  let key = base;
  for (let count = 2; taken.has(key); count++) key = `${base}-${count}`;
  return key;
}
