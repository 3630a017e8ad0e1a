import { z } from "zod";
import { currency } from "./currency.ts";
import { type ReadDate, readTypedDate } from "./date.ts";
import { findFormat } from "./format.ts";
import { objectNumberProblem, objectNumberSort } from "./object-number.ts";
import type { Orientation, Print } from "./print.ts";
import { findProcess } from "./process.ts";
import { RIGHTS } from "./rights.ts";
import { impossibleSizes } from "./sizes.ts";
import { isUndated } from "./suggest-date.ts";
import { chosen, entries, line, millimetres, passage, typed } from "./typed-text.ts";

/** The record of a print as a person writes it; what the program itself keeps is left out. */
export type PrintInput = Omit<Print, "id" | "uuid" | "revision" | "binnedAt" | "createdAt" | "updatedAt">;

const objectNumber = typed(1000).superRefine((text, issues) => {
  const problem = objectNumberProblem(text);
  if (problem !== null) issues.addIssue({ code: "custom", message: problem });
});

const date = typed(300).transform((text, issues) => {
  if (text === "") return { date: null, dateEarliest: null, dateLatest: null };
  const read = readTypedDate(text);
  if (read.ok) return { date: read.edtf, dateEarliest: read.earliest, dateLatest: read.latest };
  issues.addIssue({ code: "custom", message: whatToWrite(text, read) });
  return z.NEVER;
});

const processedOn = typed(300).transform((text, issues) => {
  if (text === "") return null;
  const read = readTypedDate(text);
  if (read.ok) return read.edtf;
  issues.addIssue({ code: "custom", message: whatToWrite(text, read) });
  return z.NEVER;
});

function whatToWrite(text: string, read: ReadDate & { ok: false }): string {
  if (isUndated(text)) return read.problem;
  return `${read.problem} ${read.suggestion === null ? DATE_FORMS : `Write ${read.suggestion} if that is what you mean.`}`;
}

const DATE_FORMS = "Write 1978, 1978-06 or 1978-06-21; 1978~ for about 1978, 197X for the 1970s, 1976/1978 for from 1976 to 1978.";

const wholeNumber = (most: number, message: string) =>
  typed(20).transform((text, issues) => {
    if (text === "") return null;
    if (/^\d+$/.test(text) && Number(text) >= 1 && Number(text) <= most) return Number(text);
    issues.addIssue({ code: "custom", message });
    return z.NEVER;
  });

const valueAmount = typed(20).transform((text, issues) => {
  if (text === "") return null;
  if (/^\d{1,12}([.,]\d{1,2})?$/.test(text)) return Number(text.replace(",", "."));
  issues.addIssue({ code: "custom", message: "Write the value as a plain number, such as 250 or 249.90." });
  return z.NEVER;
});

const isRight = (text: string): text is string => RIGHTS.some((right) => right.uri === text);
const isProcess = (text: string): text is string => findProcess(text) !== null;
const isFormat = (text: string): text is string => findFormat(text) !== null;
const isOrientation = (text: string): text is Orientation => text === "portrait" || text === "landscape" || text === "square";

/**
 * One schema for the form, the command line and an import: texts in, the record out. A missing
 * field is an empty one; an empty one is absent. Every message says what to write.
 */
export const printInput = z
  .object({
    objectNumber,
    title: line(500).transform((text) => text ?? ""),
    date,
    dateGround: line(1000),
    processId: chosen(isProcess, "Choose a process from the list.").transform((id) => id ?? "not-known"),
    formatId: chosen(isFormat, "Choose a format from the list, or none."),
    sheetWidthMm: millimetres("the width of the sheet", 1, 3000),
    sheetHeightMm: millimetres("the height of the sheet", 1, 3000),
    imageWidthMm: millimetres("the width of the image", 1, 3000),
    imageHeightMm: millimetres("the height of the image", 1, 3000),
    borderTopMm: millimetres("the border above", 0, 1500),
    borderRightMm: millimetres("the border on the right", 0, 1500),
    borderBottomMm: millimetres("the border below", 0, 1500),
    borderLeftMm: millimetres("the border on the left", 0, 1500),
    thicknessMm: millimetres("the thickness", 0.01, 100),
    orientation: chosen(isOrientation, "Choose portrait, landscape or square."),
    maker: line(500),
    people: entries(200, 200),
    subjects: entries(200, 200),
    inscriptionFront: passage(5000),
    inscriptionBack: passage(5000),
    provenance: passage(10_000),
    rightsUri: chosen(isRight, "Choose one of the rights statements in the list, or none."),
    credit: line(500),
    valueAmount,
    valueCurrency: currency,
    significance: wholeNumber(5, "Choose a significance from 1 to 5, or none."),
    significanceNote: passage(2000),
    placeId: wholeNumber(Number.MAX_SAFE_INTEGER, "Choose a place from the list, or none."),
    processedOn,
    notes: passage(20_000),
  })
  .superRefine((print, issues) => {
    for (const { field, message } of impossibleSizes(print)) issues.addIssue({ code: "custom", path: [field], message });
    if (print.valueAmount !== null && print.valueCurrency === null)
      issues.addIssue({ code: "custom", path: ["valueCurrency"], message: "Say which currency the value is in, such as EUR." });
    if (print.valueAmount === null && print.valueCurrency !== null)
      issues.addIssue({ code: "custom", path: ["valueAmount"], message: "Write the value, or empty the currency." });
  })
  .transform(({ date: read, ...rest }): PrintInput => ({ ...rest, ...read, objectNumberSort: objectNumberSort(rest.objectNumber) }));
