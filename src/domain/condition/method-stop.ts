import { METHOD_LABELS, METHODS, type Method } from "../capture/method.ts";
import type { Refusal } from "../outcome.ts";
import { type Caution, type Circumstances, contraIndication } from "./cautions-for.ts";

/** A way of capturing, as far as it touches a print. */
export type Way = { readonly method: Method; readonly hasGlass: boolean };

/** A way that must not meet a print: by which caution, and which methods may be used in its place, without glass laid over it. */
export type MethodStop = Way & { readonly caution: Caution; readonly instead: readonly Method[] };

/** Whether a way of capturing may meet a print in these circumstances; null when no caution forbids it. */
export function methodStop(way: Way, circumstances: Circumstances): MethodStop | null {
  const caution = cautionAgainst(way, circumstances);
  if (!caution) return null;
  const isForGlass = contraIndication(way.method, circumstances) === null;
  const instead = METHODS.filter((each) => contraIndication(each, circumstances) === null);
  return { method: way.method, hasGlass: isForGlass, caution, instead };
}

/**
 * The gravest caution against a way of capturing, planned or made.
 * @param way method null: not said
 */
export function cautionAgainst(
  { method, hasGlass }: Omit<Way, "method"> & { method: Method | null },
  circumstances: Circumstances,
): Caution | null {
  const byMethod = method === null ? null : contraIndication(method, circumstances);
  return byMethod ?? (hasGlass ? contraIndication("glass-over-it", circumstances) : null);
}

/** The methods that a print is kept from, glass apart, each with the gravest caution that says so. */
export const stopsOf = (circumstances: Circumstances): MethodStop[] =>
  METHODS.flatMap((method) => methodStop({ method, hasGlass: false }, circumstances) ?? []);

/** A stop as a refusal of the field `despite`, in which a person may overrule it. */
export const refusalOfStop = (stop: MethodStop, objectNumber: string): Refusal => ({
  about: "despite",
  happened: `Print ${objectNumber} must not meet ${wayInWords(stop)}: ${stop.caution.title}. ${stop.caution.cause}`,
  remedy: `${insteadInWords(stop)} Where it has been done all the same, write why: the reason is kept in the history.`,
});

export const withArticle = (method: Method): string => `a ${METHOD_LABELS[method].toLowerCase()}`;

export const wayInWords = ({ method, hasGlass }: Way): string => `${withArticle(method)}${hasGlass ? " with glass over the print" : ""}`;

/** A sentence; empty where no method is left. */
export const insteadInWords = ({ hasGlass, instead }: MethodStop): string =>
  instead.length === 0 ? "" : `Nothing forbids ${OR.format(instead.map(withArticle))}${hasGlass ? ", without glass" : ""}.`;

const OR = new Intl.ListFormat("en-GB", { type: "disjunction" });
