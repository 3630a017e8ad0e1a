import { METHOD_LABELS, METHODS, type Method } from "../capture/method.ts";
import type { Refusal } from "../outcome.ts";
import { type Caution, type Circumstances, contraIndication } from "./cautions-for.ts";

/** A method that must not meet a print: by which caution, and what may be used in its place. */
export type MethodStop = { readonly method: Method; readonly caution: Caution; readonly instead: readonly Method[] };

/** Whether a method may meet a print in these circumstances; null when no caution forbids it. */
export function methodStop(method: Method, circumstances: Circumstances): MethodStop | null {
  const caution = contraIndication(method, circumstances);
  return caution ? { method, caution, instead: METHODS.filter((each) => contraIndication(each, circumstances) === null) } : null;
}

/** The methods that a print is kept from, each with the gravest caution that says so. */
export const stopsOf = (circumstances: Circumstances): MethodStop[] => METHODS.flatMap((method) => methodStop(method, circumstances) ?? []);

/**
 * Whether a planned way of capturing may meet a print. Glass laid over the print under a camera touches it as a flatbed's does.
 * @param way method null: not said
 */
export function wayStop(way: { readonly method: Method | null; readonly hasGlass: boolean }, circumstances: Circumstances): Caution | null {
  const byMethod = way.method === null ? null : contraIndication(way.method, circumstances);
  return byMethod ?? (way.hasGlass ? contraIndication("flatbed-scanner", circumstances) : null);
}

/** A stop as a refusal of the field `despite`, in which a person may overrule it. */
export const refusalOfStop = ({ method, caution, instead }: MethodStop, objectNumber: string): Refusal => ({
  about: "despite",
  happened: `Print ${objectNumber} must not meet ${withArticle(method)}: ${caution.title}. ${caution.cause}`,
  remedy: `${insteadInWords(instead)} Where it has been done all the same, write why: the reason is kept in the history.`,
});

export const withArticle = (method: Method): string => `a ${METHOD_LABELS[method].toLowerCase()}`;

/** A sentence; empty where no method is left. */
export const insteadInWords = (instead: readonly Method[]): string =>
  instead.length === 0 ? "" : `Nothing forbids ${OR.format(instead.map(withArticle))}.`;

const OR = new Intl.ListFormat("en-GB", { type: "disjunction" });
