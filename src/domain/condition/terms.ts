import type { Term } from "./term.ts";
import { HANDS_TERMS } from "./terms/hands.ts";
import { IMAGE_TERMS } from "./terms/image.ts";
import { INSTANT_TERMS } from "./terms/instant.ts";
import { LAYER_TERMS } from "./terms/layer.ts";
import { LIVING_TERMS } from "./terms/living.ts";
import { MAKING_TERMS } from "./terms/making.ts";
import { STAINS_TERMS } from "./terms/stains.ts";
import { SUPPORT_TERMS } from "./terms/support.ts";

/** The vocabulary of condition. */
export const TERMS: readonly Term[] = [
  ...IMAGE_TERMS,
  ...STAINS_TERMS,
  ...LAYER_TERMS,
  ...SUPPORT_TERMS,
  ...LIVING_TERMS,
  ...INSTANT_TERMS,
  ...MAKING_TERMS,
  ...HANDS_TERMS,
];

const byId = new Map(TERMS.map((term) => [term.id, term]));

export const findTerm = (id: string): Term | null => byId.get(id) ?? null;

/** The term of that id or name, or the only one that is also called so; letters of any case. */
export function termNamed(text: string): Term | null {
  const asked = text.trim().toLowerCase();
  const named = TERMS.filter(({ id, name }) => id === asked || name.toLowerCase() === asked);
  const called = named.length > 0 ? named : TERMS.filter(({ alsoCalled }) => alsoCalled.some((name) => name.toLowerCase() === asked));
  return called.length === 1 ? (called[0] ?? null) : null;
}

/** The terms that can befall a process; every one where it is not known. */
export const termsFor = (processId: string): readonly Term[] =>
  processId === "not-known" ? TERMS : TERMS.filter((term) => term.befalls.includes(processId));
