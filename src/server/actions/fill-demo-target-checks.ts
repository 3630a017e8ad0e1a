import { createReadStream } from "node:fs";
import path from "node:path";
import { evenSheetInput, type TargetCheckInput, targetCheckInput } from "#domain/target/check-input.ts";
import { findSetUpByName } from "#drizzle/queries/set-ups.ts";
import { listTargetChecks } from "#drizzle/queries/target-checks.ts";
import { readDemoManifest } from "../../../demo-collection/read-manifest.ts";
import { CARD_LAYOUT, CARD_REFERENCE } from "../../../demo-collection/targets/card.ts";
import { DEMO_EVEN_SHEETS, DEMO_TARGET_CHECKS, DEMO_TARGET_PICTURES } from "../../../demo-collection/targets/checks.ts";
import type { Context } from "../context.ts";
import { copyIn } from "../intake/copy-in.ts";
import { checkTarget } from "./check-target.ts";

/** What two set-ups of the demo proved on a card and a sheet over the years. What is there already stays. */
export async function fillDemoTargetChecks(context: Context): Promise<void> {
  const setUps = new Map(readDemoManifest().setUps.map(({ key, name }) => [key, findSetUpByName(context.db, name)?.id]));
  const held = new Map([...setUps.values()].flatMap((id) => (id ? [[id, new Set(filesOf(context, id))] as const] : [])));
  const card = { layout: JSON.stringify(CARD_LAYOUT), reference: CARD_REFERENCE, referenceName: "small-card.txt" };
  const all = [
    ...DEMO_TARGET_CHECKS.map(({ takenOn, note, ...of }) => ({ ...of, input: targetCheckInput.parse({ ...card, takenOn, note }) })),
    ...DEMO_EVEN_SHEETS.map(({ takenOn, ...of }) => ({ ...of, input: evenSheetInput.parse({ takenOn, note: "" }) })),
  ];
  for (const { file, setUp, input } of all) {
    const setUpId = setUps.get(setUp);
    if (setUpId !== undefined && !held.get(setUpId)?.has(file)) await keep(context, setUpId, file, input);
  }
}

const filesOf = (context: Context, setUpId: number): string[] =>
  listTargetChecks(context.db, setUpId).map(({ original }) => original.originalName);

/** The demo is ours: a refusal in it is a defect, or a disk that is full. */
async function keep(context: Context, setUpId: number, file: string, input: TargetCheckInput): Promise<void> {
  const copied = await copyIn(context.folder, createReadStream(path.join(DEMO_TARGET_PICTURES, file)), file);
  const kept = copied.ok
    ? await checkTarget(context, { setUpId, copied: copied.value, name: file, input, saidSheet: null, mayWait: false })
    : copied;
  if (!kept.ok) throw new Error(`The demo collection could not be made at ${file}: ${kept.refusals[0]?.happened}`);
}
