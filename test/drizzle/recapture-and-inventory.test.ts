import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { ALL_PRINTS } from "#domain/print/print-filter.ts";
import type { RecaptureFilter } from "#domain/recapture/recapture-filter.ts";
import { schema } from "#drizzle/client.ts";
import { listPurposes } from "#drizzle/queries/aims.ts";
import { setCapturePrint } from "#drizzle/queries/captures.ts";
import { inventoryRows } from "#drizzle/queries/inventory.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import { listPrints } from "#drizzle/queries/prints.ts";
import { recaptureList, recaptureTasks } from "#drizzle/queries/recapture.ts";
import { enqueueMeasure } from "#drizzle/queries/work.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";

const TODAY = "2026-11-25";

/** Three prints: one well captured, one only by a phone, one never. */
function threePrints() {
  const context = emptyCollection();
  const study = insertPlace(context.db, { parentId: null, kind: "room", name: "Study" });
  const box = insertPlace(context.db, { parentId: study, kind: "box", name: "Box 4" });
  const good = keptPrint(context.db, "1978.001", { placeId: box });
  const poor = keptPrint(context.db, "1978.002", { placeId: box, title: "On the pier" });
  const none = keptPrint(context.db, "1978.003");
  const tiff = measuredCapture(
    context.db,
    good,
    { ...GOOD_ENOUGH, sfr50CyPerMm: 4.567 },
    { fileName: "stand.tif", method: "copy-stand-camera" },
  );
  const jpeg = measuredCapture(
    context.db,
    poor,
    { ...GOOD_ENOUGH, lossless: 0, samplingPpi: 310 },
    { fileName: "phone.jpg", method: "phone-camera" },
  );
  chooseMasters(context);
  return { context, good, poor, none, tiff, jpeg };
}

test("the list holds the print that falls short and the one never captured, with place, best file and reasons", () => {
  const { context, poor, none, jpeg } = threePrints();
  const lines = recaptureList(context.db, TODAY);
  expect(lines.map((line) => [line.printId, line.why])).toEqual([
    [none, "no-capture"],
    [poor, "falls-short"],
  ]);
  expect(lines[1]).toMatchObject({
    objectNumber: "1978.002",
    title: "On the pier",
    placePath: ["Study", "Box 4"],
    purposeKey: "preservation-master",
    best: { captureId: jpeg, fileName: "phone.jpg", method: "phone-camera" },
    stillMeasuring: false,
  });
  expect(lines[1]?.reasons.map((reason) => reason.measure)).toEqual(["lossless", "samplingPpi"]);
});

test("the tasks of each purpose are the lines of its list, without reading what they say", () => {
  const { context, poor } = threePrints();
  measuredCapture(context.db, poor, { ...GOOD_ENOUGH, lossless: 0 }, { fileName: "back.jpg", side: "back", method: "phone-camera" });
  chooseMasters(context);
  const key = ({ printId, side, why }: { printId: number; side: string; why: string }) => `${printId} ${side} ${why}`;
  const [purpose] = listPurposes(context.db);
  expect(recaptureTasks(context.db, purpose?.id ?? 0).map(key)).toEqual(recaptureList(context.db, TODAY).map(key));
  expect(recaptureTasks(context.db, purpose?.id ?? 0)).toHaveLength(3);
  for (const each of listPurposes(context.db))
    expect(recaptureTasks(context.db, each.id).map(key).sort()).toEqual(
      recaptureList(context.db, TODAY, { purposes: [each] })
        .map(key)
        .sort(),
    );
});

test("for all purposes, a print can be good enough for one and not for another", () => {
  const { context, poor } = threePrints();
  const purposes = recaptureList(context.db, TODAY, { purposes: listPurposes(context.db) })
    .filter((line) => line.printId === poor)
    .map((line) => line.purposeKey);
  expect(purposes).toEqual(["preservation-master"]);
});

test("a print whose captures wait to be measured says that the line may go away", () => {
  const { context, poor, jpeg } = threePrints();
  enqueueMeasure(context.db, jpeg);
  expect(recaptureList(context.db, TODAY).find((line) => line.printId === poor)?.stillMeasuring).toBe(true);
});

test("prints in the bin are on neither list", () => {
  const { context } = threePrints();
  context.db.update(schema.prints).set({ binnedAt: "2026-11-24T00:00:00Z" }).run();
  expect(recaptureList(context.db, TODAY)).toEqual([]);
  expect(inventoryRows(context.db, ALL_PRINTS, TODAY)).toEqual([]);
});

test("a fresh integral print is not to be captured under a scanner lid, and the advice follows its cautions", () => {
  const context = emptyCollection();
  keptPrint(context.db, "2026.001", { processId: "integral-instant-colour", processedOn: "2026-11-20" });
  const [line] = recaptureList(context.db, TODAY);
  expect(line?.advice[0]?.sentence).toBe("Use a camera on copy stand.");
});

test("the inventory names the file, its hash, method and measures for each purpose, and why", () => {
  const { context, good, tiff } = threePrints();
  const row = inventoryRows(context.db, ALL_PRINTS, TODAY).find((each) => each.print.id === good);
  const sha256 = context.db.$client
    .prepare("select sha256 from originals o join captures c on c.original_id = o.id where c.id = ?")
    .pluck()
    .get(tiff);
  expect(row).toMatchObject({ placePath: ["Study", "Box 4"], captureCount: 1, recaptureReasons: [] });
  expect(row?.masters.map((master) => master.purposeKey)).toEqual(["preservation-master", "reproduction", "screen"]);
  expect(row?.masters[0]).toEqual({
    side: "front",
    purposeKey: "preservation-master",
    purposeName: "Preservation master",
    file: {
      fileName: "stand.tif",
      sha256,
      method: "copy-stand-camera",
      samplingPpi: { value: 450, bound: null },
      sfr50CyPerMm: { value: 4.567, bound: null },
    },
    decidedBy: "rule",
    sentence: "stand.tif is the only capture, and meets every requirement.",
  });
});

test("the inventory keeps to its filter and its order", () => {
  const { context } = threePrints();
  const numbers = (filter: Partial<typeof ALL_PRINTS>) =>
    inventoryRows(context.db, { ...ALL_PRINTS, ...filter }, TODAY).map((row) => row.print.objectNumber);
  expect(numbers({})).toEqual(["1978.001", "1978.002", "1978.003"]);
  expect(numbers({ direction: "down" })).toEqual(["1978.003", "1978.002", "1978.001"]);
  expect(numbers({ search: "pier" })).toEqual(["1978.002"]);
  expect(numbers({ captures: "without" })).toEqual(["1978.003"]);
});

test("the inventory says why a print must be captured again, for the filtered prints too", () => {
  const { context } = threePrints();
  const reasons = inventoryRows(context.db, { ...ALL_PRINTS, search: "pier" }, TODAY).map((row) => row.recaptureReasons);
  expect(reasons).toEqual([
    ["Its compression throws values away.", "Sampling is 310 ppi where at least 392 ppi is asked, 82 ppi too little."],
  ]);
});

test("findings of the last finished survey count for the cautions, earlier ones do not", () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1950.001", { processId: "not-known", processedOn: "1950-01-01" });
  const cautions = () => inventoryRows(context.db, ALL_PRINTS, TODAY)[0]?.cautions ?? [];
  const calm = cautions();
  const survey = (surveyedOn: string, term: string | null) => {
    const { id } = context.db
      .insert(schema.surveys)
      .values({ printId, surveyedOn, finishedAt: `${surveyedOn}T12:00:00Z` })
      .returning({ id: schema.surveys.id })
      .get();
    if (term) context.db.insert(schema.findings).values({ surveyId: id, term, severity: 3 }).run();
  };
  survey("2026-01-01", "flaking");
  expect(cautions().length).toBeGreaterThan(calm.length);
  survey("2026-06-01", null);
  expect(cautions()).toEqual(calm);
});

/** Numbers of the prints that the filter means, and of those the recapture list tells for that reason. */
function filteredAndListed({ db }: ReturnType<typeof emptyCollection>, recapture: RecaptureFilter) {
  const filtered = listPrints(db, { ...ALL_PRINTS, recapture }).rows.map((print) => print.objectNumber);
  const lines = recaptureList(db, TODAY).filter(
    ({ why, reasons }) => recapture === "needed" || why === recapture || reasons.some(({ measure }) => measure === recapture),
  );
  return { filtered, listed: [...new Set(lines.map((line) => line.objectNumber))].sort() };
}

const RECAPTURE_CASES: readonly [RecaptureFilter, readonly string[]][] = [
  ["needed", ["1978.002", "1978.003", "1978.004"]],
  ["no-capture", ["1978.003"]],
  ["samplingPpi", ["1978.002", "1978.004"]],
  ["lossless", ["1978.002"]],
  ["skewDegrees", []],
];

test.each(RECAPTURE_CASES)(
  "the list of prints narrowed to those to be captured again (%s) holds what the recapture list tells",
  (recapture, numbers) => {
    const { context } = threePrints();
    // its front is well captured, its back falls short
    const both = keptPrint(context.db, "1978.004");
    measuredCapture(context.db, both, GOOD_ENOUGH);
    measuredCapture(context.db, both, { ...GOOD_ENOUGH, samplingPpi: 250 }, { side: "back" });
    chooseMasters(context);
    expect(filteredAndListed(context, recapture)).toEqual({ filtered: numbers, listed: numbers });
  },
);

test("a print whose best capture was moved to another print needs a capture again, and not for the old reason", () => {
  const { context, good, jpeg } = threePrints();
  setCapturePrint(context.db, jpeg, { printId: good, side: "front" });
  // before masters are chosen anew, the old choice speaks of a capture that is no longer the print's
  expect(filteredAndListed(context, "samplingPpi")).toEqual({ filtered: [], listed: [] });
  expect(filteredAndListed(context, "no-capture")).toEqual({ filtered: ["1978.002", "1978.003"], listed: ["1978.002", "1978.003"] });
  chooseMasters(context);
  expect(filteredAndListed(context, "needed")).toEqual({ filtered: ["1978.002", "1978.003"], listed: ["1978.002", "1978.003"] });
});

test("a better capture takes a print off the narrowed list as soon as masters are chosen", () => {
  const { context, poor } = threePrints();
  measuredCapture(context.db, poor, GOOD_ENOUGH);
  chooseMasters(context);
  expect(filteredAndListed(context, "needed")).toEqual({ filtered: ["1978.003"], listed: ["1978.003"] });
});

test("the migration that fills the table of shortfalls writes what a choice writes today", () => {
  const { context } = threePrints();
  const rows = () => context.db.$client.prepare("select choice_id, capture_id, measure from shortfalls order by choice_id, measure").all();
  const written = rows();
  expect(written.length).toBeGreaterThan(1);
  context.db.$client.exec("delete from shortfalls");
  context.db.$client.exec(readFileSync(new URL("../../migrations/0005_fill_shortfalls.sql", import.meta.url), "utf8"));
  expect(rows()).toEqual(written);
});
