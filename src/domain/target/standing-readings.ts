import { dateInWords } from "../print/date.ts";
import type { TargetReading } from "./read-target.ts";

type Dated = { readonly takenOn: string; readonly readings: readonly TargetReading[] };

/**
 * What a set-up's checks prove together: what the first of them does not tell is taken from the next that tells it as a value. So a
 * printed page, which knows no colours, does not silence the full target before it. A bound stands: it is the newest that is known.
 * @param others the next best first
 */
export function completedBy(readings: readonly TargetReading[], others: readonly Dated[]): TargetReading[] {
  return readings.map((reading) => {
    if ("value" in reading) return reading;
    for (const { takenOn, readings: held } of others) {
      const told = held.find((each) => each.name === reading.name && isExact(each));
      if (told && "value" in told) return { ...told, note: `From the check of ${dateInWords(takenOn)}. ${told.note ?? ""}`.trim() };
    }
    return reading;
  });
}

const isExact = (reading: TargetReading): boolean => "value" in reading && reading.bound === undefined;
