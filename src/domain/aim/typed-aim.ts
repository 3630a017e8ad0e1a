import { MEASURE_NAMES, MEASURES, type MeasureName } from "../measure/catalogue.ts";
import type { Aim, AimLimit } from "./aim.ts";

/** The figures of a limit that a form shows for each sense, in the order of the form. */
export const FIGURES_OF = {
  "at-least": ["requiredAtLeast", "lowest", "best", "weight"],
  "at-most": ["requiredAtMost", "best", "highest", "weight"],
  between: ["requiredAtLeast", "requiredAtMost", "lowest", "best", "highest", "weight"],
} as const;

export type Figure = (typeof FIGURES_OF)["between"][number];

/** The name of a field, as refusals name it too. */
export const fieldOf = (measure: string, figure: Figure | "sense"): string => `limits.${measure}.${figure}`;

/** Measures that a form can ask for: those with a better and a worse. Which way is which, the catalogue says. */
export const MEASURES_TO_ASK: readonly MeasureName[] = MEASURE_NAMES.filter((name) => MEASURES[name].better !== "fact");

export const senseOf = (measure: MeasureName): AimLimit["sense"] => (MEASURES[measure].better === "higher" ? "at-least" : "at-most");

/** An aim as its form shows it; what only a target proves is not on the form. */
export function typedAim({ purpose, name, version, limits }: Omit<Aim, "id" | "edition">): Record<string, string> {
  const typed: Record<string, string> = { name: purpose.name, note: purpose.note ?? "", asks: name, version: String(version) };
  for (const limit of limits) {
    if (limit.provedBy === "target") continue;
    typed[fieldOf(limit.measure, "sense")] = limit.sense;
    for (const figure of FIGURES_OF[limit.sense])
      typed[fieldOf(limit.measure, figure)] = limit[figure] === null ? "" : String(limit[figure]);
  }
  return typed;
}

/**
 * What a form says, for the schema to judge (aim-input.ts): a measure with all fields empty is not asked for, a number may have a point or
 * a comma, and what is no number stays text, for the schema to refuse.
 * @param kept limits that the form does not show
 */
export function aimFromTyped(typed: Readonly<Record<string, string>>, kept: readonly AimLimit[]): Record<string, unknown> {
  const limits: Record<string, unknown> = {};
  for (const measure of MEASURE_NAMES) {
    const sense = typed[fieldOf(measure, "sense")];
    const shown = FIGURES_OF[sense as AimLimit["sense"]] as readonly Figure[] | undefined;
    const said = (shown ?? []).map((figure) => [figure, (typed[fieldOf(measure, figure)] ?? "").trim()] as const);
    if (said.some(([, text]) => text !== ""))
      limits[measure] = { sense, ...Object.fromEntries(said.map(([figure, text]) => [figure, numberIn(figure, text)])) };
  }
  for (const { measure, provedBy: _, ...limit } of kept) limits[measure] = limit;
  return { name: typed.name ?? "", note: typed.note ?? "", asks: typed.asks ?? "", limits };
}

function numberIn(figure: Figure, text: string): number | string | null {
  if (text === "") return figure === "weight" ? 0 : null;
  return /^[-−]?\d{1,9}([.,]\d{1,9})?$/.test(text) ? Number(text.replace(",", ".").replace("−", "-")) : text;
}
