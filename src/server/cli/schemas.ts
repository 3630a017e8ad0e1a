import { z } from "zod";
import { bedReportSchema } from "#domain/capture/bed-report.ts";
import { changeReportSchema } from "#domain/condition/change/change-report.ts";
import { choiceReportSchema } from "#domain/master/choice-report.ts";
import { captureReportSchema } from "#domain/measure/capture-report.ts";
import { matchReportSchema } from "#domain/measure/match-report.ts";

/** What the command line answers programs about plain files, by the name of the JSON Schema file in schemas/. */
export const REPORT_SCHEMAS = {
  "capture-report": captureReportSchema,
  "choice-report": choiceReportSchema,
  "bed-report": bedReportSchema,
  "match-report": matchReportSchema,
  "change-report": changeReportSchema,
} as const;

/** The JSON Schema (draft 2020-12) of one report. */
export const jsonSchemaOf = (name: keyof typeof REPORT_SCHEMAS) => z.toJSONSchema(REPORT_SCHEMAS[name]);
