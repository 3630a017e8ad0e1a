import { z } from "zod";
import { chosen, line, reasonGiven, typed } from "../print/typed-text.ts";
import type { RecaptureLine } from "./recapture-line.ts";

const WHYS = ["no-capture", "falls-short"] as const satisfies readonly RecaptureLine["why"][];

/** More than this is no work of one day, and no page that a phone can show. */
export const MOST_SHEET_ROWS = 200;

/** What goes onto a work sheet, as a form or the command line says it. */
export const workSheetInput = z.object({
  /** key of the purpose; empty: the first */
  purpose: typed(60),
  name: line(120),
  /** the place and what is inside it; empty: everywhere */
  placeId: typed(15)
    .refine((text) => text === "" || /^[1-9]\d*$/.test(text), "Choose a place from the list.")
    .transform((text) => (text === "" ? null : Number(text))),
  why: chosen((text): text is (typeof WHYS)[number] => WHYS.some((each) => each === text), "Choose what is meant from the list."),
  /** the most urgent only; empty: as many as a sheet takes */
  most: typed(5)
    .refine(
      (text) => text === "" || (/^[1-9]\d{0,2}$/.test(text) && Number(text) <= MOST_SHEET_ROWS),
      `Write how many rows at most, from 1 to ${MOST_SHEET_ROWS}, or nothing for the ${MOST_SHEET_ROWS} most urgent.`,
    )
    .transform((text) => (text === "" ? MOST_SHEET_ROWS : Number(text))),
});
export type WorkSheetInput = z.output<typeof workSheetInput>;

/** Why a side is good enough as it is. */
export const exemptionReason = reasonGiven(1000);
