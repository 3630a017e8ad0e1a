import { z } from "zod";
import { typed } from "../../print/typed-text.ts";
import { DATE_ORDERS } from "./read-stamp.ts";
import { localClock } from "./time-zone.ts";

export const DELIMITERS = { comma: ",", semicolon: ";", tab: "\t" } as const;
export type DelimiterName = keyof typeof DELIMITERS;

export const isDelimiter = (text: string | undefined): text is DelimiterName => text !== undefined && Object.hasOwn(DELIMITERS, text);

const column = (what: string) =>
  typed(10).transform((text, issues) => {
    if (text === "") return null;
    if (/^\d{1,3}$/.test(text) && Number(text) >= 1) return Number(text);
    issues.addIssue({ code: "custom", message: `Choose the column of ${what} from the list.` });
    return z.NEVER;
  });

/** How a logger's file is to be read. Columns and rows are counted from 1. */
export const loggerMapping = z
  .object({
    delimiter: z.enum(["comma", "semicolon", "tab"], "Choose what stands between the columns."),
    /** the first row that holds a reading */
    firstRow: typed(10).transform((text, issues) => {
      if (/^[1-9]\d{0,3}$/.test(text)) return Number(text);
      issues.addIssue({ code: "custom", message: "Write the number of the first row that holds a reading, such as 2." });
      return z.NEVER;
    }),
    timeColumn: column("date and time").refine((at) => at !== null, "Choose the column that says when."),
    /** where date and time of day stand in two columns */
    clockColumn: column("the time of day"),
    dateOrder: z.enum(DATE_ORDERS, "Choose in which order day, month and year stand."),
    timeZone: typed(60).refine(
      (text) => localClock(text) !== null,
      "Write the time zone of the logger's clock as UTC, as +01:00, or by its name, such as Europe/Lisbon.",
    ),
    temperatureColumn: column("the temperature"),
    temperatureUnit: z.enum(["celsius", "fahrenheit"], "Choose °C or °F."),
    humidityColumn: column("the relative humidity"),
    decimalSign: z.enum(["point", "comma"], "Choose what stands before the decimals."),
  })
  .refine(({ temperatureColumn, humidityColumn }) => temperatureColumn !== null || humidityColumn !== null, {
    path: ["temperatureColumn"],
    message: "Choose at least one column: that of the temperature or that of the humidity.",
  })
  .refine(({ temperatureColumn, humidityColumn }) => temperatureColumn === null || temperatureColumn !== humidityColumn, {
    path: ["humidityColumn"],
    message: "This is the column of the temperature already. Choose another one.",
  })
  .transform(({ timeColumn, ...rest }) => ({ ...rest, timeColumn: timeColumn ?? 1 }));
export type LoggerMapping = z.output<typeof loggerMapping>;
