import { createReadStream } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import type { Outcome } from "#domain/outcome.ts";
import { photographsOfPrint } from "#drizzle/queries/finding-photographs.ts";
import { judgementsOfPrint } from "#drizzle/queries/findings.ts";
import { findPrintByNumber } from "#drizzle/queries/prints.ts";
import { DEMO_PHOTOGRAPHS } from "../../../demo-collection/finding-photographs.ts";
import type { Context } from "../context.ts";
import { photographFinding } from "./photograph-finding.ts";

const FOLDER = fileURLToPath(new URL("../../../demo-collection/finding-photographs", import.meta.url));

type Expected = <T>(what: string, outcome: Outcome<T>) => T;

/** The photographs of what was found on the demo's prints. Those that are there already, and prints put in the bin, are passed over. */
export async function fillDemoPhotographs(context: Context, expected: Expected): Promise<void> {
  for (const { file, objectNumber, surveyedOn, term, caption } of DEMO_PHOTOGRAPHS) {
    const print = findPrintByNumber(context.db, objectNumber);
    if (print?.binnedAt !== null) continue;
    const finding = judgementsOfPrint(context.db, print.id).find((each) => each.term === term && each.surveyedOn === surveyedOn);
    if (!finding) continue;
    const kept = photographsOfPrint(context.db, print.id).get(finding.id) ?? [];
    if (kept.some(({ name }) => name === file)) continue;
    const source = createReadStream(path.join(FOLDER, file));
    expected(file, await photographFinding(context, { findingId: finding.id, caption, source, originalName: file }));
  }
}
