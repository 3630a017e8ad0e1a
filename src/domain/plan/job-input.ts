import { z } from "zod";
import { currency } from "../print/currency.ts";
import { line, millimetres, quantity } from "../print/typed-text.ts";

const money = (what: string) => quantity(0, 999_999, `Write ${what} as a plain number, such as 250 or 24.50.`);
const minutes = (what: string) => quantity(0, 10_000, `Write ${what} in minutes, such as 3 or 2.5.`);

/** What each field of a job is called, wherever it is named, in the order of the form. */
export const JOB_LABELS = {
  objectNumber: "Object number",
  printWidthMm: "A size, width",
  printHeightMm: "A size, height",
  marginMm: "Margin seen round the print",
  curlMm: "Curl of the print",
  minutesPerPrint: "Minutes a print",
  minutesToSetUp: "Minutes to set up",
  price: "Price of the equipment for this job",
  pricePerHour: "Price of an hour of work",
  currency: "Currency of both",
} as const;

/** What is to be captured, as a form or the command line says it: one print, a size, or, with neither, the whole recapture list. */
export const jobInput = z
  .object({
    objectNumber: line(100),
    printWidthMm: millimetres("the width", 10, 3000),
    printHeightMm: millimetres("the height", 10, 3000),
    marginMm: quantity(0, 200, "Write the margin in millimetres, such as 5.", "mm").transform((margin) => margin ?? 5),
    curlMm: quantity(0, 200, "Write in millimetres how high the print rises, such as 2.", "mm").transform((curl) => curl ?? 0),
    minutesPerPrint: minutes("the time for a print"),
    minutesToSetUp: minutes("the time to set up").transform((time) => time ?? 0),
    price: money("the price"),
    pricePerHour: money("the price of an hour"),
    currency,
  })
  .superRefine(({ objectNumber, printWidthMm, printHeightMm }, issues) => {
    const say = (path: string, message: string) => issues.addIssue({ code: "custom", path: [path], message });
    if ((printWidthMm === null) !== (printHeightMm === null))
      say(printWidthMm === null ? "printWidthMm" : "printHeightMm", "A size needs both its sides.");
    if (objectNumber !== null && printWidthMm !== null) say("objectNumber", "Plan for a print or for a size: empty one of them.");
  });

export type JobInput = z.output<typeof jobInput>;
