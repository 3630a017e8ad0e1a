import type { Method } from "../capture/method.ts";
import { findFormat } from "../print/format.ts";
import { findProcess } from "../print/process.ts";
import { CAUTION_LEVELS, type Caution, type CautionRule, type FoundTerm } from "./caution.ts";
import { CAUTION_TABLE } from "./caution-table.ts";

export type { Caution } from "./caution.ts";

/** What cautions depend on. Days are YYYY-MM-DD (a longer ISO moment is cut). */
export type Circumstances = {
  readonly processId: string;
  readonly formatId?: string | null;
  /** null: nobody recorded it, and the print is treated as fresh until a person does */
  readonly processedOn: string | null;
  readonly today: string;
  readonly method?: Method | null;
  readonly findings: readonly FoundTerm[];
};

/** What to mind before the print leaves its sleeve, gravest first. */
export function cautionsFor(circumstances: Circumstances): Caution[] {
  return CAUTION_TABLE.filter((rule) => holds(rule, circumstances))
    .sort((a, b) => CAUTION_LEVELS.indexOf(a.level) - CAUTION_LEVELS.indexOf(b.level))
    .map((rule) => caution(rule, circumstances));
}

/** The gravest caution that forbids a method for this print; null when none does. */
export function contraIndication(method: Method, circumstances: Circumstances): Caution | null {
  const inThatCase = { ...circumstances, method };
  const forbidding = CAUTION_TABLE.filter((rule) => rule.forbids.includes(method) && holds(rule, inThatCase));
  const gravest = forbidding.sort((a, b) => CAUTION_LEVELS.indexOf(a.level) - CAUTION_LEVELS.indexOf(b.level))[0];
  return gravest ? caution(gravest, inThatCase) : null;
}

function holds(rule: CautionRule, circumstances: Circumstances): boolean {
  const { processId, formatId, method } = circumstances;
  const family = findProcess(processId)?.family ?? "not-known";
  const group = findFormat(formatId ?? "")?.group;
  return (
    (rule.families?.includes(family) ?? true) &&
    (rule.processIds?.includes(processId) ?? true) &&
    (rule.formatGroups?.some((each) => each === group) ?? true) &&
    (rule.methods?.some((each) => each === method) ?? true) &&
    (rule.terms === undefined || foundBy(rule, circumstances) !== null) &&
    (rule.upToDays === undefined || isFresh(rule, rule.upToDays, circumstances))
  );
}

function isFresh(rule: CautionRule, upToDays: number, { processedOn, today }: Circumstances): boolean {
  return processedOn === null ? rule.whenDayUnknown === true : daysBetween(processedOn, today) <= upToDays;
}

/** The finding that a rule speaks of, an active one first. */
function foundBy(rule: CautionRule, { findings }: Circumstances): FoundTerm | null {
  const found = findings.filter(({ term, severity }) => severity >= 1 && rule.terms?.includes(term));
  return found.find(({ activity }) => activity === "active") ?? found[0] ?? null;
}

function caution(rule: CautionRule, circumstances: Circumstances): Caution {
  const { id, level, title, text, source, defer } = rule;
  return { id, level, title, text, cause: causeOf(rule, circumstances), source, defer };
}

function causeOf(rule: CautionRule, circumstances: Circumstances): string {
  if (rule.upToDays !== undefined && circumstances.processedOn === null) return DAY_UNKNOWN;
  if (foundBy(rule, circumstances)?.activity === "active") return `${rule.cause} The last survey judged it active.`;
  return rule.cause;
}

const DAY_UNKNOWN =
  "Nobody recorded on which day this print was processed, so it is treated as fresh, however old it looks. If you know that it is older, record a day on which it was certainly finished.";

const DAY_MS = 86_400_000;

/** Whole days from one day to another. An unreadable or a future day counts as no time passed: the careful side. */
function daysBetween(from: string, to: string): number {
  const days = Math.floor((Date.parse(to.slice(0, 10)) - Date.parse(from.slice(0, 10))) / DAY_MS);
  return Number.isNaN(days) ? 0 : Math.max(0, days);
}
