import { z } from "zod";
import { aimFileSchema } from "#domain/aim/aim-file.ts";
import { bedReportSchema } from "#domain/capture/bed-report.ts";
import { changeReportSchema } from "#domain/condition/change/change-report.ts";
import { choiceReportSchema } from "#domain/master/choice-report.ts";
import { captureReportSchema } from "#domain/measure/capture-report.ts";
import { matchReportSchema } from "#domain/measure/match-report.ts";
import { refusedFileSchema } from "#domain/refused-file.ts";
import { keptTargetRead } from "#domain/target/kept-read.ts";

/** What the command line answers programs about plain files, and the aim that it writes and reads, by the name of the JSON Schema file in schemas/. A refused file has a line of its own. */
export const REPORT_SCHEMAS = {
  "capture-report": z.union([captureReportSchema, refusedFileSchema]),
  "choice-report": z.union([choiceReportSchema, refusedFileSchema]),
  "bed-report": z.union([bedReportSchema, refusedFileSchema]),
  "match-report": z.union([matchReportSchema, refusedFileSchema]),
  "change-report": z.union([changeReportSchema, refusedFileSchema]),
  "target-report": keptTargetRead,
  aim: aimFileSchema,
} as const;

/** The JSON Schema (draft 2020-12) of one report; an aim is described as it is read, with what may be left out. */
export const jsonSchemaOf = (name: keyof typeof REPORT_SCHEMAS) =>
  z.toJSONSchema(REPORT_SCHEMAS[name], { io: name === "aim" ? "input" : "output" });
