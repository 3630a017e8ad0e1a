import { FORMATS } from "#domain/print/format.ts";
import { FORMAT_GROUPS } from "#domain/print/print-format.ts";
import { PROCESSES, type ProcessFamily } from "#domain/print/process.ts";
import { RIGHTS } from "#domain/print/rights.ts";
import { type PlaceNode, pathInWords } from "#domain/storage/place-tree.ts";
import { sizeInMm } from "../format/millimetres.ts";
import type { Choice, ChoiceGroup } from "./field.tsx";

/** Processes by family, in the order of the table. */
export const processChoices = (): ChoiceGroup[] =>
  grouped(
    PROCESSES,
    (process) => FAMILY_LABELS[process.family],
    (process) => ({ value: process.id, label: process.name }),
  );

/** Formats by group, each with its nominal sheet. */
export const formatChoices = (): ChoiceGroup[] =>
  grouped(
    FORMATS,
    (format) => FORMAT_GROUPS[format.group],
    (format) => ({ value: format.id, label: `${format.name}, ${sizeInMm(format.sheetWidthMm, format.sheetHeightMm)}` }),
  );

export const placeChoices = (places: readonly PlaceNode[]): Choice[] =>
  places.map((place) => ({ value: String(place.id), label: pathInWords(place.path) }));

export const rightsChoices = (): Choice[] => RIGHTS.map((right) => ({ value: right.uri, label: right.label }));

const FAMILY_LABELS: Readonly<Record<ProcessFamily, string>> = {
  "not-known": "Not known",
  "integral-instant": "Integral instant",
  "peel-apart-instant": "Peel-apart instant",
  silver: "Silver prints",
  chromogenic: "Chromogenic",
  dye: "Dye prints",
  digital: "Digital prints",
  "direct-thermal": "Direct thermal",
  "early-paper": "Early paper prints",
  plate: "Metal and glass",
};

function grouped<T>(all: readonly T[], groupOf: (each: T) => string, choiceOf: (each: T) => Choice): ChoiceGroup[] {
  const groups = new Map<string, Choice[]>();
  for (const each of all) groups.set(groupOf(each), [...(groups.get(groupOf(each)) ?? []), choiceOf(each)]);
  return [...groups].map(([label, choices]) => ({ label, choices }));
}
