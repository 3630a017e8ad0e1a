import { beforeInWords, statesInWords } from "#domain/condition/change/before-in-words.ts";
import type { Change } from "#domain/condition/change/change-between.ts";
import { CHANGES } from "#domain/condition/change/change-names.ts";
import { VERDICT_WORDS } from "#domain/condition/change/verdict.ts";
import type { LifeNow } from "#domain/condition/condition-now.ts";
import type { ConditionReport, PicturedSide, ReportChange, ReportSide } from "#domain/condition/condition-report.ts";
import { EXTENT_WORDS } from "#domain/condition/extent.ts";
import { ACTIVITY_WORDS } from "#domain/condition/finding.ts";
import { lookInWords, severityInWords, termInWords } from "#domain/condition/finding-in-words.ts";
import type { FindingPhotograph } from "#domain/condition/finding-photograph.ts";
import { GRADE_MEANINGS, GRADE_SOURCE, GRADE_WORDS } from "#domain/condition/grade.ts";
import { regionsInWords } from "#domain/condition/marked-region.ts";
import { levelOf, SEVERITIES } from "#domain/condition/severity.ts";
import { byWhomInWords, type Survey } from "#domain/condition/survey.ts";
import { findTerm } from "#domain/condition/terms.ts";
import { dateInWords } from "#domain/print/date.ts";
import { imageSize, type PrintSize, sheetSize } from "#domain/print/dimensions.ts";
import { findFormat } from "#domain/print/format.ts";
import { findProcess } from "#domain/print/process.ts";
import { pathInWords } from "#domain/storage/place-tree.ts";
import { sizeInMm } from "../format/millimetres.ts";
import { LEVEL_WORDS } from "./cautions.tsx";
import { structureInWords } from "./change-map.tsx";
import { figure, signed } from "./change-numbers.tsx";
import type { NumberedMark } from "./marked-side.tsx";
import { PRINT_LABELS } from "./print-fields.tsx";

/** What a condition report says, in the same words on the page and on paper. */
export type ReportFact = { readonly name: string; readonly value: string };

export const reportTitle = ({ print }: Pick<ConditionReport, "print">): string =>
  `${print.objectNumber} ${print.title === "" ? "Untitled" : print.title}`;

export const reportLine = ({ at, collectionName }: Pick<ConditionReport, "at" | "collectionName">): string =>
  `Condition report of ${dateInWords(at.slice(0, 10))}, ${collectionName}`;

/** The grave cautions by name, for who reads no further; null where there are none. */
export function firstToMind({ cautions }: Pick<ConditionReport, "cautions">): string | null {
  const grave = cautions.filter(({ level }) => level === "danger" || level === "warning");
  return grave.length === 0 ? null : `${grave.map(({ level, title }) => `${LEVEL_WORDS[level]}: ${title}`).join(". ")}.`;
}

export function recordFacts({ print, placePath }: Pick<ConditionReport, "print" | "placePath">): ReportFact[] {
  const facts: [name: string, value: string | null][] = [
    ["date", print.date === null ? null : [dateInWords(print.date), print.dateGround].filter(Boolean).join(". ")],
    ["processId", findProcess(print.processId)?.name ?? print.processId],
    ["formatId", print.formatId === null ? null : (findFormat(print.formatId)?.name ?? print.formatId)],
    ["Sheet", inWords(sheetSize(print))],
    ["Image", inWords(imageSize(print))],
    ["placeId", placePath.length === 0 ? "not known" : pathInWords(placePath)],
    ["maker", print.maker],
    ["people", print.people.join("; ")],
    ["subjects", print.subjects.join("; ")],
    ["inscriptionFront", print.inscriptionFront],
    ["inscriptionBack", print.inscriptionBack],
    ["processedOn", print.processedOn === null ? null : dateInWords(print.processedOn)],
    ["provenance", print.provenance],
    ["credit", print.credit],
    ["notes", print.notes],
  ];
  return facts.flatMap(([name, value]) => (value ? [{ name: PRINT_LABELS[name] ?? name, value }] : []));
}

const inWords = (size: PrintSize | null): string | null =>
  size && `${sizeInMm(size.widthMm, size.heightMm)}, ${size.basis === "measured" ? "measured" : `nominal, ± ${size.toleranceMm} mm`}`;

export const NOT_LOOKED_AT = "Nobody has looked at its condition yet.";

/** Of a print that somebody has looked at. */
export function conditionFacts(survey: Survey, { next, standing, notFound, gone }: ConditionReport): ReportFact[] {
  const numbered = standing.map(({ last }, index) => `${index + 1} ${termInWords(last)}`);
  const facts: [name: string, value: string | null][] = [
    ["Grade", survey.grade && `${GRADE_WORDS[survey.grade]}. ${GRADE_MEANINGS[survey.grade]}`],
    ["Looked at", `${dateInWords(survey.surveyedOn)}, ${byWhomInWords(survey)}`],
    ["Next look", next && `by ${dateInWords(next.dueOn)}, because ${next.because}`],
    ["Note", survey.note],
    ["Found", numbered.length === 0 ? "nothing" : numbered.join("; ")],
    ["Looked for and not found", notFound.map(({ last }) => termInWords(last)).join("; ")],
    ["Gone since", gone.map(({ last }) => `${termInWords(last)} (${dateInWords(last.surveyedOn)})`).join("; ")],
  ];
  return facts.flatMap(([name, value]) => (value ? [{ name, value }] : []));
}

/** Who gave the grade, and by which scale; null where none was given. */
export const gradeGround = ({ grade, gradeBasis }: Survey): string | null =>
  grade && `${gradeBasis === "said" ? "Given by a person" : "Proposed from the findings"}. The four grades: ${GRADE_SOURCE}.`;

const sideName = ({ side }: Pick<ReportSide, "side">): string => (side === "front" ? "Front" : "Back");

/** The places marked on one side, numbered as the findings are. */
export const marksOn = (side: ReportSide["side"], standing: readonly LifeNow[]): NumberedMark[] =>
  standing.flatMap(({ last }, index) =>
    last.side === side && last.regions.length > 0 ? [{ number: index + 1, regions: last.regions }] : [],
  );

export function sideAlt({ side }: PicturedSide, marks: readonly NumberedMark[]): string {
  const numbers = marks.map(({ number }) => number).join(", ");
  return `The ${side}${marks.length > 0 ? `, with the places of findings ${numbers} marked` : ""}.`;
}

/** What a side is shown by, and which of its findings nobody has marked on it. */
export function sideWords(side: ReportSide, standing: readonly LifeNow[]): string {
  const unmarked = standing.flatMap(({ last }, index) => (last.side === side.side && last.regions.length === 0 ? [index + 1] : []));
  const shown =
    "absent" in side ? `no picture. ${side.absent}` : `${sizeInMm(side.widthMm, side.heightMm)}, straightened from ${side.captureName}.`;
  const without = unmarked.length === 0 ? "" : ` Found here without a marked place: ${unmarked.join(", ")}.`;
  return `${sideName(side)}: ${shown}${without}`;
}

export const findingTitle = ({ last }: LifeNow): string =>
  `${termInWords(last)}: ${[
    severityInWords(last.severity),
    ...(last.activity === "not-known" ? [] : [ACTIVITY_WORDS[last.activity]]),
    ...(last.extent ? [EXTENT_WORDS[last.extent]] : []),
  ].join(", ")}`;

/** What its level looks like; null for a term of another collection. */
export function findingLevel({ last }: LifeNow): string | null {
  const term = findTerm(last.term);
  const level = SEVERITIES.find((each) => each === last.severity);
  return term && level !== undefined ? `Level ${last.severity} of 4: ${levelOf(term, level)}.` : null;
}

export function findingFacts({ life, last }: LifeNow): ReportFact[] {
  const looks = life.map((look) => `${dateInWords(look.surveyedOn)} ${lookInWords(look)}`).join("; ");
  return [
    ...(last.note ? [{ name: "Note", value: last.note }] : []),
    { name: "Places", value: last.regions.length > 0 ? `${regionsInWords(last.regions)}.` : `none marked on the ${last.side}.` },
    ...(life.length > 1 ? [{ name: "Since it was found", value: looks }] : []),
  ];
}

export const photographsOf = ({ life }: LifeNow, photographs: ConditionReport["photographs"]): FindingPhotograph[] =>
  life.flatMap(({ id }) => photographs.get(id) ?? []);

export function photographWords({ caption, name, takenAt, addedAt }: FindingPhotograph): string {
  const when = takenAt ? `taken ${takenAt.slice(0, 10)}, as its camera says` : `added ${addedAt.slice(0, 10)}`;
  return `${caption ?? name}, ${when}`;
}

export const leftOutWords = ({ leftOut, print }: ConditionReport): string | null =>
  leftOut === 0 ? null : `${leftOut} more photographs are kept with the record of ${print.objectNumber}.`;

/** The largest: a report is read at a table. */
const MOST_PLACES = 10;

export const changeTitle = ({ side, from, to }: ReportChange): string =>
  `${sideName({ side })}, from ${dateInWords(from)} to ${dateInWords(to)}`;

export function changeFacts(change: Change): ReportFact[] {
  const numbers = change.numbers.flatMap((number) => {
    if ("absent" in number) return [];
    const { label, unit } = CHANGES[number.name];
    const value = `${signed(number.value, unit)} ± ${figure(number.expandedUncertainty, unit)}`;
    return [{ name: label, value: `${value}, ${VERDICT_WORDS[number.verdict]}` }];
  });
  const { structures, untoldStructures, structuresVerdict } = change;
  const places = structures.slice(0, MOST_PLACES).map((structure, index) => ({
    name: `Place ${index + 1}`,
    value: `${structureInWords(structure)}. ${beforeInWords(structure)}.`,
  }));
  const more = structures.length - places.length + untoldStructures;
  const counted = structures.length === 0 ? "none" : `${statesInWords(structures)}; ${VERDICT_WORDS[structuresVerdict]}`;
  return [
    ...numbers,
    { name: "New or altered places", value: counted },
    ...places,
    ...(more > 0 ? [{ name: "Smaller places", value: `${more} more, on the page of change` }] : []),
  ];
}

/** Why nothing is told of a pair; null where something is. */
export function whyNoChange({ held }: ReportChange): string | null {
  if (held === null) return "It has not been worked out yet. “Change over time, measured” on the print's page does it.";
  return "refused" in held ? `The two could not be held against each other: ${held.refused}.` : null;
}

export const NO_TWO_DAYS = "No side has captures of two known days, so no change can be measured yet.";
export const CHANGE_GROUND = "Newer less older, with the expanded uncertainty (k = 2, JCGM 100:2008).";

/** What is signed on paper. No name stands there: that of the last look may have been carried over from another print's. */
export const SIGNATURES = ["Looked at by", "Handed over by", "Received by"].map((who) => `${who} (name, day, signature)`);
