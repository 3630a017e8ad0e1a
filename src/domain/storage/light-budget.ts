import { findProcess, type ProcessFamily } from "../print/process.ts";
import type { Display } from "./display.ts";

const EXHIBITION =
  "S. Wagner, C. McCabe and B. Lemmen, Guidelines for exhibition light levels for photographs, Topics in Photographic Preservation 9, 2001";

/** How much light a class of prints may have in a year, by a published guideline. */
export type LightClass = {
  readonly name: string;
  /** null: the original is not shown at all, only a copy */
  readonly luxHoursAYear: number | null;
  readonly rest: string;
  readonly source: string;
};

const CLASSES = {
  extraordinary: { name: "extraordinarily sensitive", luxHoursAYear: null, rest: "Show a copy instead.", source: EXHIBITION },
  very: { name: "very sensitive", luxHoursAYear: 50_000, rest: "Then at least three years of rest in the dark.", source: EXHIBITION },
  sensitive: { name: "sensitive", luxHoursAYear: 100_000, rest: "", source: `${EXHIBITION} (class and figure from memory)` },
  less: { name: "less sensitive", luxHoursAYear: 300_000, rest: "", source: `${EXHIBITION} (class and figure from memory)` },
  thermal: {
    name: "not for display",
    luxHoursAYear: null,
    rest: "Show a copy instead.",
    source: "National Museum of Asian Art, Smithsonian, Light Duration Guidelines",
  },
} as const satisfies Record<string, LightClass>;

const BY_PROCESS: Readonly<Record<string, LightClass>> = {
  "salted-paper": CLASSES.very,
  cyanotype: CLASSES.very,
  "platinum-palladium": CLASSES.less,
  albumen: CLASSES.sensitive,
};

const BY_FAMILY: Readonly<Record<ProcessFamily, LightClass>> = {
  "not-known": CLASSES.very,
  "integral-instant": CLASSES.very,
  "peel-apart-instant": CLASSES.very,
  silver: CLASSES.less,
  chromogenic: CLASSES.sensitive,
  dye: CLASSES.sensitive,
  digital: CLASSES.sensitive,
  "direct-thermal": CLASSES.thermal,
  "early-paper": CLASSES.sensitive,
  plate: CLASSES.less,
};

export type LightBudget = LightClass & {
  /** how the process got into its class, where no text was read that puts it there; null otherwise */
  readonly doubt: string | null;
};

/** The yearly light that prints of a process may have. */
export function lightBudgetOf(processId: string): LightBudget {
  const family = findProcess(processId)?.family ?? "not-known";
  const of = BY_PROCESS[processId] ?? BY_FAMILY[family];
  const doubt =
    family === "not-known"
      ? "The process is not known, so it counts as very sensitive."
      : of === CLASSES.thermal
        ? null
        : "The list of processes of the source was cut off in the copy that was read: the class of this one is from memory or our own.";
  return { ...of, doubt };
}

/** Said from this share of the budget on (own). */
export const WARNING_SHARE = 0.8;

export type LightDose = {
  /** of all logged days up to today */
  readonly luxHours: number;
  /** of the 365 days that end today */
  readonly luxHoursThisYear: number;
  /** of the year's budget, 1 = all of it; null where the print should not be shown at all */
  readonly shareOfYear: number | null;
  readonly isOnDisplay: boolean;
  /** days in it that more than one entry tells of: their light is counted for each */
  readonly overlappingDays: number;
};

/**
 * Light a print has had: lux x hours a day x days, added up for life, because nothing that light has done grows back.
 * @param today YYYY-MM-DD; days after it are not counted
 */
export function lightDose(displays: readonly Display[], budget: LightClass, today: string): LightDose {
  const yearBegins = dayNumber(today) - 364;
  let luxHours = 0;
  let luxHoursThisYear = 0;
  const seen = new Set<number>();
  let overlappingDays = 0;
  for (const { startsOn, endsOn, lux, hoursPerDay } of displays) {
    const first = dayNumber(startsOn);
    const last = Math.min(dayNumber(endsOn ?? today), dayNumber(today));
    if (last < first) continue;
    luxHours += (last - first + 1) * lux * hoursPerDay;
    luxHoursThisYear += Math.max(0, last - Math.max(first, yearBegins) + 1) * lux * hoursPerDay;
    for (let day = first; day <= last; day++) {
      if (seen.has(day)) overlappingDays++;
      seen.add(day);
    }
  }
  const shareOfYear = budget.luxHoursAYear === null ? null : luxHoursThisYear / budget.luxHoursAYear;
  const isOnDisplay = displays.some(({ startsOn, endsOn }) => startsOn <= today && (endsOn ?? today) >= today);
  return { luxHours, luxHoursThisYear, shareOfYear, isOnDisplay, overlappingDays };
}

/** What to say of a dose, in one sentence. Nothing logged is not the same as nothing had. */
export function doseInWords(dose: LightDose, budget: LightClass, isLogged: boolean): string {
  if (!isLogged) return "No days on display are logged. What it had before is not known.";
  const figure = (luxHours: number) => `${Math.round(luxHours).toLocaleString("en-GB")} lux hours`;
  if (budget.luxHoursAYear === null)
    return `It had ${figure(dose.luxHours)}, and by the guideline the original should not be shown at all. ${budget.rest}`;
  const share = dose.shareOfYear ?? 0;
  const used = `${figure(dose.luxHoursThisYear)} in the last 365 days, ${Math.round(share * 100)} % of the ${figure(budget.luxHoursAYear)} a year for ${budget.name} prints`;
  if (share > 1) return `Over the limit: ${used}. ${dose.isOnDisplay ? "Take it down." : ""} ${budget.rest}`.replace("  ", " ").trim();
  if (share >= WARNING_SHARE) return `Close to the limit: ${used}. ${budget.rest}`.trim();
  return `${used}.`;
}

const dayNumber = (day: string): number => Math.floor(Date.parse(`${day}T00:00:00Z`) / 86_400_000);
