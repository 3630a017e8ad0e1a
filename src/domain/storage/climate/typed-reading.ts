import { z } from "zod";
import { typed } from "../../print/typed-text.ts";
import type { ClimateReading } from "./read-row.ts";
import { readStamp } from "./read-stamp.ts";
import { localClock } from "./time-zone.ts";

const figure = (least: number, most: number, message: string) =>
  typed(20).transform((text, issues) => {
    if (text === "") return null;
    const number = Number(text.replace(",", "."));
    if (/^-?\d{1,3}([.,]\d{1,2})?$/.test(text) && number >= least && number <= most) return Math.round(number * 100);
    issues.addIssue({ code: "custom", message });
    return z.NEVER;
  });

/** One reading taken off an instrument by eye. */
export const typedReading = z
  .object({
    at: typed(40),
    timeZone: typed(60).refine(
      (text) => localClock(text) !== null,
      "Write the time zone as UTC, +01:00, or by its name, such as Europe/Lisbon.",
    ),
    temperature: figure(-40, 60, "Write the temperature in °C, from -40 to 60, such as 18.5, or leave it empty."),
    humidity: figure(0, 100, "Write the relative humidity in %, from 0 to 100, such as 42, or leave it empty."),
  })
  .transform(({ at, timeZone, temperature, humidity }, issues): ClimateReading => {
    const stamp = readStamp(at, "year-month-day");
    const moment = stamp ? (localClock(timeZone)?.momentOf(stamp.localSeconds, null) ?? null) : null;
    if (moment === null) issues.addIssue({ code: "custom", path: ["at"], message: "Write day and time as 2026-03-01 14:30." });
    if (temperature === null && humidity === null)
      issues.addIssue({ code: "custom", path: ["temperature"], message: "Write at least one of the two: temperature or humidity." });
    return { atSeconds: moment ?? 0, temperatureCentiC: temperature, humidityCentiPercent: humidity };
  });
