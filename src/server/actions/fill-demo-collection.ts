import { createReadStream } from "node:fs";
import path from "node:path";
import { setUpInput } from "#domain/capture/set-up.ts";
import { collectionInput } from "#domain/collection/collection-input.ts";
import type { Outcome } from "#domain/outcome.ts";
import { arrangementInput } from "#domain/plan/arrangement.ts";
import { printInput } from "#domain/print/schema.ts";
import { placeInput } from "#domain/storage/place-input.ts";
import { findPlaceByName } from "#drizzle/queries/places.ts";
import { findPrintByNumber, listObjectNumbers } from "#drizzle/queries/prints.ts";
import { findSetUpByName } from "#drizzle/queries/set-ups.ts";
import type { DemoCapture, Manifest } from "../../../demo-collection/manifest.ts";
import { DEMO_CAPTURES, readDemoManifest } from "../../../demo-collection/read-manifest.ts";
import type { Context } from "../context.ts";
import { createPlace } from "./create-place.ts";
import { createPrint } from "./create-print.ts";
import { createSetUp } from "./create-set-up.ts";
import { editCollection } from "./edit-collection.ts";
import { fillDemoPhotographs } from "./fill-demo-photographs.ts";
import { fillDemoStorage } from "./fill-demo-storage.ts";
import { fillDemoSurveys } from "./fill-demo-surveys.ts";
import { keepArrangement } from "./keep-arrangement.ts";
import { takeInCapture } from "./take-in-capture.ts";

/**
 * Enters the invented family's places, set-ups and prints and takes their captures in, by the same
 * actions a keeper uses. What is there already stays as it is, so that running it again after a stop
 * goes on where it was.
 * @param onProgress called after each capture file with how many of all are done
 */
export async function fillDemoCollection(context: Context, onProgress: (done: number, all: number) => void): Promise<void> {
  const manifest = readDemoManifest();
  if (listObjectNumbers(context.db).length === 0) expected("the collection", editCollection(context, collectionInput.parse(manifest)));
  const placeIds = enterPlaces(context, manifest);
  const setUpIds = enterSetUps(context, manifest);
  enterPrints(context, manifest, placeIds);
  await fillDemoStorage(context, placeIds, expected);
  fillDemoSurveys(context, placeIds, expected);
  await fillDemoPhotographs(context, expected);
  let done = 0;
  for (const capture of manifest.captures) {
    await takeIn(context, capture, setUpIds);
    onProgress(++done, manifest.captures.length);
  }
}

type Ids = ReadonlyMap<string, number>;

function enterPlaces(context: Context, manifest: Manifest): Ids {
  const ids = new Map<string, number>();
  for (const { key, parent, kind, name } of manifest.places) {
    const parentId = parent === null ? null : idOf(ids, parent);
    const held = findPlaceByName(context.db, parentId, name);
    const input = placeInput.parse({ kind, name, parentId: parentId === null ? "" : String(parentId) });
    ids.set(key, held ? held.id : expected(name, createPlace(context, input)).placeId);
  }
  return ids;
}

function enterSetUps(context: Context, manifest: Manifest): Ids {
  const ids = new Map<string, number>();
  for (const { key, figures, ...setUp } of manifest.setUps) {
    const held = findSetUpByName(context.db, setUp.name);
    const setUpId = held ? held.id : expected(setUp.name, createSetUp(context, setUpInput.parse(setUp))).id;
    ids.set(key, setUpId);
    if (!held && figures) expected(setUp.name, keepArrangement(context, { setUpId, arrangement: arrangementInput.parse(figures) }));
  }
  return ids;
}

function enterPrints(context: Context, manifest: Manifest, placeIds: Ids): void {
  for (const { objectNumber, place, fields, people, subjects } of manifest.prints) {
    if (findPrintByNumber(context.db, objectNumber)) continue;
    const lists = { people: people.join("\n"), subjects: subjects.join("\n") };
    const input = printInput.parse({ ...fields, ...lists, objectNumber, placeId: String(idOf(placeIds, place)) });
    expected(objectNumber, createPrint(context, input));
  }
}

/** A file that names its print finds it and comes with its set-up; the others wait in the tray, as a stranger's files would. */
async function takeIn(context: Context, capture: DemoCapture, setUpIds: Ids): Promise<void> {
  const source = createReadStream(path.join(DEMO_CAPTURES, capture.file));
  const { method, side } = capture;
  const said = capture.namesItsPrint && capture.setUp ? { method, side, setUpId: idOf(setUpIds, capture.setUp), despite: DESPITE } : {};
  expected(capture.file, await takeInCapture(context, { source, originalName: capture.file, ...said }));
}

const DESPITE = "The family captured it this way before this record was begun.";

function idOf(ids: Ids, key: string): number {
  const id = ids.get(key);
  if (id === undefined) throw new Error(`the demo's manifest names ${key} before it is made`);
  return id;
}

/** The demo is ours: a refusal in it is a defect, or a disk that is full. */
function expected<T>(what: string, outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  const [first] = outcome.refusals;
  throw new Error(
    `The demo collection could not be made at ${what}: ${first ? `${first.happened} ${first.remedy}` : "no reason was given"}`,
  );
}
