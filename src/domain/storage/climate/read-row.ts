import type { LoggerMapping } from "./logger-mapping.ts";
import { readStamp } from "./read-stamp.ts";
import { localClock } from "./time-zone.ts";

/** One reading as it is kept; at least one of the two values is there. */
export type ClimateReading = {
  readonly atSeconds: number;
  readonly temperatureCentiC: number | null;
  readonly humidityCentiPercent: number | null;
};

export const ROW_PROBLEMS = {
  "time-unreadable": "The time could not be read.",
  "time-never": "The clock never showed this time: it lies in the hour that is left out when summer time begins.",
  "number-unreadable": "A value is no number.",
  "temperature-implausible": "The temperature lies outside -40 to 60 °C and was left out.",
  "humidity-implausible": "The humidity lies outside 0 to 100 % and was left out.",
  "no-value": "No value stands in the row.",
} as const;
export type RowProblem = keyof typeof ROW_PROBLEMS;

export type ReadRow = { readonly reading: ClimateReading | null; readonly problems: readonly RowProblem[] };

/** What a store, an attic or a freezer can have (own bounds): beyond it a sensor is broken or a unit wrong. */
const LEAST_C = -40;
const MOST_C = 60;

/** Reads one row after another by a mapping; the rows of a file must come in their order, for the hour that autumn has twice. */
export function rowReader(mapping: LoggerMapping): (cells: readonly string[]) => ReadRow {
  const clock = localClock(mapping.timeZone);
  if (!clock) throw new Error(`no time zone: ${mapping.timeZone}`);
  let before: number | null = null;
  return (cells) => {
    const cell = (column: number | null): string => (column === null ? "" : (cells[column - 1] ?? "").trim());
    const day = cell(mapping.timeColumn);
    const stamp = readStamp(mapping.clockColumn === null ? day : `${day} ${cell(mapping.clockColumn)}`, mapping.dateOrder);
    if (!stamp) return { reading: null, problems: ["time-unreadable"] };
    const { localSeconds, offsetSeconds } = stamp;
    const atSeconds: number | null = offsetSeconds === null ? clock.momentOf(localSeconds, before) : localSeconds - offsetSeconds;
    if (atSeconds === null) return { reading: null, problems: ["time-never"] };
    before = atSeconds;
    const problems: RowProblem[] = [];
    const number = (text: string): number | null => {
      if (text === "") return null;
      const value = readNumber(text, mapping.decimalSign);
      if (value === null) problems.push("number-unreadable");
      return value;
    };
    const degrees = number(cell(mapping.temperatureColumn));
    const celsius = degrees === null || mapping.temperatureUnit === "celsius" ? degrees : ((degrees - 32) * 5) / 9;
    const isWarmth = celsius === null || (celsius >= LEAST_C && celsius <= MOST_C);
    if (!isWarmth) problems.push("temperature-implausible");
    const percent = number(cell(mapping.humidityColumn));
    const isHumidity = percent === null || (percent >= 0 && percent <= 100);
    if (!isHumidity) problems.push("humidity-implausible");
    const temperatureCentiC = celsius === null || !isWarmth ? null : Math.round(celsius * 100);
    const humidityCentiPercent = percent === null || !isHumidity ? null : Math.round(percent * 100);
    if (temperatureCentiC === null && humidityCentiPercent === null)
      return { reading: null, problems: problems.length > 0 ? problems : ["no-value"] };
    return { reading: { atSeconds, temperatureCentiC, humidityCentiPercent }, problems };
  };
}

/** A number with its unit behind it or not; thousands are never marked in a climate. */
function readNumber(text: string, decimalSign: LoggerMapping["decimalSign"]): number | null {
  const bare = text.replace(/\s*(°|º|%|rh|r\.h\.|deg)?\s*[cf]?$/i, "");
  const figures = decimalSign === "comma" ? bare.replace(",", ".") : bare;
  if (decimalSign === "comma" && bare.includes(".")) return null;
  return /^[+-]?\d{1,6}(\.\d+)?$/.test(figures) ? Number(figures) : null;
}
