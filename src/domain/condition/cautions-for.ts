import type { Method } from "../capture/method.ts";
import { dateInWords, parseDate } from "../print/date.ts";
import { findFormat } from "../print/format.ts";
import type { Print } from "../print/print.ts";
import { findProcess } from "../print/process.ts";
import { CAUTION_LEVELS, type Caution, type CautionRule, type Doing, type FoundTerm } from "./caution.ts";
import { CAUTION_TABLE } from "./caution-table.ts";
import { STAND_CAUTIONS } from "./cautions/at-the-stand.ts";
import { INTENDED_ACTIONS, type IntendedAction } from "./intended-action.ts";

export type { Caution } from "./caution.ts";

/** What cautions depend on. Today is YYYY-MM-DD. */
export type Circumstances = {
  readonly processId: string;
  readonly formatId?: string | null;
  /** EDTF; null: nobody recorded it, and the print is treated as fresh until a person does */
  readonly processedOn: string | null;
  /** EDTF, of the picture: where it is old, that the print is treated as fresh is said as a doubt */
  readonly date?: string | null;
  readonly today: string;
  readonly method?: Method | null;
  readonly action?: IntendedAction | null;
  readonly findings: readonly FoundTerm[];
  /** what the prints of its place lie in, an id of enclosure.ts */
  readonly enclosureMaterial?: string | null;
};

/** What cautions depend on, for a print as it is recorded. */
export function circumstancesOf(
  { processId, formatId, processedOn, date }: Pick<Print, "processId" | "formatId" | "processedOn" | "date">,
  today: string,
  findings: readonly FoundTerm[] = [],
  enclosureMaterial: string | null = null,
): Circumstances {
  return { processId, formatId, processedOn, date, today, findings, enclosureMaterial };
}

/** What to mind before the print leaves its sleeve: gravest first, and of one level the certain before the doubtful. */
export function cautionsFor(circumstances: Circumstances): Caution[] {
  return said(CAUTION_TABLE, circumstances);
}

/** The gravest caution that forbids something for this print; null when none does. */
export function contraIndication(doing: Doing, circumstances: Circumstances): Caution | null {
  return forbidding(doing, circumstances)[0] ?? null;
}

/** What the cautions answer to somebody who means to do something with a print. */
export type ActionAnswer = {
  readonly action: IntendedAction;
  /** with-care: nothing forbids it, and the cautions tell how */
  readonly verdict: "must-not" | "with-care";
  /** gravest first; those that forbid it where something does */
  readonly cautions: readonly Caution[];
};

/** Every action has a caution of its own, so that silence is never taken for leave. */
export const answersFor = (circumstances: Circumstances): ActionAnswer[] =>
  INTENDED_ACTIONS.map((action) => {
    const against = forbidding(action, circumstances);
    if (against.length > 0) return { action, verdict: "must-not", cautions: against };
    const minding = CAUTION_TABLE.filter((rule) => rule.minds?.includes(action) || rule.actions?.includes(action));
    return { action, verdict: "with-care", cautions: said(minding, { ...circumstances, action }) };
  });

/** What can hurt the person who captures by a method, whatever the print. */
export const standCautions = (method: Method | null): readonly CautionRule[] =>
  STAND_CAUTIONS.filter(({ methods }) => method !== null && methods?.includes(method));

function forbidding(doing: Doing, circumstances: Circumstances): Caution[] {
  const meant = isAction(doing) ? { ...circumstances, action: doing } : { ...circumstances, method: doing };
  return said(
    CAUTION_TABLE.filter((rule) => rule.forbids.includes(doing)),
    meant,
  );
}

const isAction = (doing: Doing): doing is IntendedAction => INTENDED_ACTIONS.some((each) => each === doing);

const said = (rules: readonly CautionRule[], circumstances: Circumstances): Caution[] =>
  rules
    .filter((rule) => holds(rule, circumstances))
    .map((rule) => caution(rule, circumstances))
    .sort((a, b) => CAUTION_LEVELS.indexOf(a.level) - CAUTION_LEVELS.indexOf(b.level) || Number(a.isDoubtful) - Number(b.isDoubtful));

function holds(rule: CautionRule, circumstances: Circumstances): boolean {
  const { processId, formatId, method, action, enclosureMaterial } = circumstances;
  const family = findProcess(processId)?.family ?? "not-known";
  const group = findFormat(formatId ?? "")?.group;
  return (
    (rule.families?.includes(family) ?? true) &&
    (rule.processIds?.includes(processId) ?? true) &&
    (rule.formatGroups?.some((each) => each === group) ?? true) &&
    (rule.enclosureMaterials?.some((each) => each === enclosureMaterial) ?? true) &&
    (rule.methods?.some((each) => each === method) ?? true) &&
    (rule.actions?.some((each) => each === action) ?? true) &&
    (rule.terms === undefined || foundBy(rule, circumstances) !== null) &&
    (rule.upToDays === undefined || isFresh(rule, rule.upToDays, circumstances))
  );
}

/** A date that leaves a choice counts as the youngest it can mean. */
function isFresh(rule: CautionRule, upToDays: number, circumstances: Circumstances): boolean {
  return isCertainlyFresh(upToDays, circumstances) || (rule.unlessRuledOut === true && isPossiblyFresh(upToDays, circumstances));
}

function isCertainlyFresh(upToDays: number, { processedOn, today }: Circumstances): boolean {
  const { earliest } = processing(processedOn);
  return earliest !== null && daysBetween(earliest, today) <= upToDays;
}

function isPossiblyFresh(upToDays: number, { processedOn, today }: Circumstances): boolean {
  const { latest } = processing(processedOn);
  return latest === null || daysBetween(latest, today) <= upToDays;
}

/** First and last day of processing; null where it is open, unknown or cannot be read. */
function processing(processedOn: string | null): { earliest: string | null; latest: string | null } {
  const read = processedOn === null ? null : parseDate(processedOn);
  return read?.ok ? read : { earliest: null, latest: null };
}

/** The finding that a rule speaks of, an active one first. */
function foundBy(rule: CautionRule, { findings }: Circumstances): FoundTerm | null {
  const found = findings.filter(
    ({ term, severity, activity = "not-known" }) =>
      severity >= 1 && rule.terms?.includes(term) && (rule.activity === undefined || rule.activity === activity),
  );
  return found.find(({ activity }) => activity === "active") ?? found[0] ?? null;
}

const isActive = (rule: CautionRule, circumstances: Circumstances) => foundBy(rule, circumstances)?.activity === "active";

function caution(rule: CautionRule, circumstances: Circumstances): Caution {
  const { id, title, text, source, defer } = rule;
  const level = isActive(rule, circumstances) ? (rule.levelWhenActive ?? rule.level) : rule.level;
  const said = { id, level, title, text, cause: causeOf(rule, circumstances), source, defer, isDoubtful: false };
  if (rule.upToDays === undefined || isCertainlyFresh(rule.upToDays, circumstances)) return said;
  const mayEnd = { ...said, toEnd: { field: "processedOn" as const, words: TO_END } };
  if (!isOldPicture(rule.upToDays, circumstances)) return mayEnd;
  return { ...mayEnd, title: rule.titleWhenOld ?? title, text: `If it is fresh: ${inSentence(text)}`, isDoubtful: true };
}

function causeOf(rule: CautionRule, circumstances: Circumstances): string {
  const { processedOn, date } = circumstances;
  if (rule.upToDays !== undefined && processedOn === null)
    return date && isOldPicture(rule.upToDays, circumstances) ? oldButNotRecorded(date) : NOT_RECORDED;
  if (rule.upToDays !== undefined && processedOn !== null && !isCertainlyFresh(rule.upToDays, circumstances)) return tooWide(processedOn);
  if (isActive(rule, circumstances)) return `${rule.cause} The last survey judged it active.`;
  return rule.cause;
}

/** A date that is marked uncertain is trusted to be no farther off than this (own). */
const UNCERTAIN_DAYS = 20 * 365;

/** Whether nothing is recorded of processing, and the picture's date is surely older than so many days. */
function isOldPicture(upToDays: number, { processedOn, date, today }: Circumstances): boolean {
  if (processedOn !== null || !date) return false;
  const mayBeOff = /[?%]/.test(date) ? UNCERTAIN_DAYS : 0;
  const read = parseDate(date);
  return read.ok && read.latest !== null && daysBetween(read.latest, today) > upToDays + mayBeOff;
}

const inSentence = (text: string): string => `${text[0]?.toLowerCase() ?? ""}${text.slice(1)}`;

const NOT_RECORDED = "Nobody recorded when this print was processed, so it is treated as fresh, however old it looks.";

const oldButNotRecorded = (date: string) =>
  `Its picture is dated ${dateInWords(date)}, so it is hardly fresh; but nobody recorded when the print was processed, and until somebody does it is treated as fresh.`;

const tooWide = (processedOn: string) =>
  `Its processing is recorded as ${dateInWords(processedOn)}, which does not rule out that it is this fresh; the youngest it can be counts.`;

const TO_END = "Even a rough date ends this caution once the print is surely older: 1976~ for about 1976, 197X for the 1970s.";

const DAY_MS = 86_400_000;

/** Whole days from one day to another. A day that lies ahead or outside the years 0 to 9999 counts as no time passed: the careful side. */
function daysBetween(from: string, to: string): number {
  const days = Math.floor((Date.parse(to) - Date.parse(from)) / DAY_MS);
  return Number.isNaN(days) ? 0 : Math.max(0, days);
}
