import { expect, test, vi } from "vitest";
import { setUpInput } from "#domain/capture/set-up.ts";
import { arrangementInput } from "#domain/plan/arrangement.ts";
import { workSheetInput } from "#domain/recapture/work-sheet-input.ts";
import { schema } from "#drizzle/client.ts";
import { currentAims, insertAim } from "#drizzle/queries/aims.ts";
import { historyOfPrint } from "#drizzle/queries/events.ts";
import { exemptionsOfPurpose } from "#drizzle/queries/exemptions.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import { recaptureList, recaptureTasks } from "#drizzle/queries/recapture.ts";
import { findWorkSheet, rowsOfWorkSheet } from "#drizzle/queries/work-sheets.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { createSetUp } from "#server/actions/create-set-up.ts";
import { askAgain, exemptFromRecapture } from "#server/actions/exempt-from-recapture.ts";
import { keepArrangement } from "#server/actions/keep-arrangement.ts";
import { makeWorkSheet } from "#server/actions/make-work-sheet.ts";
import { overruleMaster } from "#server/actions/overrule-master.ts";
import { putAwayCapture } from "#server/actions/put-away-capture.ts";
import { tickRow } from "#server/actions/tick-row.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { deleteCaptures } from "../../fixtures/delete-captures.ts";

const TODAY = "2026-11-26";
const KEY = "preservation-master";

/** Two boxes: in one a print with a poor capture and one without any, in the other a poor one that means more. */
function twoBoxes() {
  const context = { ...emptyCollection(), now: () => `${TODAY}T10:00:00.000Z` };
  const study = insertPlace(context.db, { parentId: null, kind: "room", name: "Study" });
  const [tin, album] = ["Tin", "Album"].map((name) => insertPlace(context.db, { parentId: study, kind: "box", name })) as [number, number];
  const poor = keptPrint(context.db, "1978.001", { placeId: tin, significance: 2 });
  const none = keptPrint(context.db, "1978.002", { placeId: tin, significance: 1 });
  const dear = keptPrint(context.db, "1978.003", { placeId: album, significance: 5 });
  keptPrint(context.db, "1978.004", { placeId: album });
  const fine = keptPrint(context.db, "1978.005", { placeId: album, significance: 5 });
  const phone = (printId: number, read = {}) =>
    measuredCapture(
      context.db,
      printId,
      { ...GOOD_ENOUGH, samplingPpi: 300, ...read },
      { fileName: `${printId}.jpg`, method: "copy-stand-camera" },
    );
  const poorCapture = phone(poor);
  phone(dear);
  measuredCapture(context.db, fine, GOOD_ENOUGH);
  chooseMasters(context);
  const make = (typed: Record<string, string> = {}) => makeWorkSheet(context, workSheetInput.parse(typed));
  const sheet = (typed: Record<string, string> = {}) => {
    const made = make(typed);
    if (!made.ok) throw new Error(made.refusals[0]?.happened);
    return { ...made.value, rows: () => rowsOfWorkSheet(context.db, made.value.sheetId) };
  };
  return { context, tin, album, poor, none, dear, fine, poorCapture, phone, make, sheet };
}

const rowOf = (rows: ReturnType<typeof rowsOfWorkSheet>, printId: number) => {
  const row = rows.find((each) => each.printId === printId);
  if (!row) throw new Error(`no row of ${printId}`);
  return row;
};

test("a capture made with a set-up whose figures are kept is told its distance in millimetres, by the focal length in the file", () => {
  const { context, poor, sheet } = twoBoxes();
  const made = createSetUp(context, setUpInput.parse({ name: "Stand", method: "copy-stand-camera" }));
  if (!made.ok) throw new Error("The set-up was refused.");
  const figures = { sensorWidthMm: "36", sensorHeightMm: "24", sensorWidthPx: "6000", sensorHeightPx: "4000", focalLengthMm: "60" };
  expect(keepArrangement(context, { setUpId: made.value.id, arrangement: arrangementInput.parse(figures) }).ok).toBe(true);
  measuredCapture(
    context.db,
    poor,
    { ...GOOD_ENOUGH, samplingPpi: 350 },
    { method: "copy-stand-camera", setUpId: made.value.id, widthPx: 4000, heightPx: 6000, focalLengthMm: 100 },
  );
  chooseMasters(context);
  // 350 ppi with pixels of 6 µm is m = 0.08268, 392 ppi is 0.0926: 100 (1 + 1/m)
  expect(rowOf(sheet().rows(), poor).reasons[0]?.advice[0]?.sentence).toBe(
    "Bring the lens from about 1310 mm to about 1180 mm above the print.",
  );
});

test("a sheet holds what is to be captured again, box by box, with the reason, its number and the set-up to use", () => {
  const { sheet, poor, none, dear, context } = twoBoxes();
  const made = sheet();
  // nobody surveyed, so care is 2 × 2 × 2 for all; need × significance: 4 × 3 (not judged) and 1 × 5 in the album, 4 × 1 and 1 × 2 in the tin
  expect(made.rows().map(({ objectNumber }) => objectNumber)).toEqual(["1978.004", "1978.003", "1978.002", "1978.001"]);
  const rows = made.rows();
  expect(rowOf(rows, dear)).toMatchObject({
    placePath: ["Study", "Album"],
    method: "copy-stand-camera",
    state: "open",
    priority: { score: 40 },
  });
  expect(rowOf(rows, none).reasons).toEqual([]);
  expect(rowOf(rows, poor).reasons[0]?.sentence).toBe("Sampling is 300 ppi where at least 392 ppi is asked, 92 ppi too little.");
  // in numbers first, then what holds in general
  expect(rowOf(rows, poor).reasons[0]?.advice.map(({ sentence }) => sentence.slice(0, 24))).toEqual([
    "Bring the lens nearer, b",
    "Move the camera closer, ",
  ]);
  expect(findWorkSheet(context.db, made.sheetId)).toMatchObject({
    name: "Preservation master, 2026-11-26",
    counts: { open: 4, closed: 0 },
  });
});

test("it can be kept to a place, to what was never captured and to the most urgent, and says when nothing is left", () => {
  const { sheet, make, tin, dear } = twoBoxes();
  expect(make({ placeId: "999" })).toMatchObject({ ok: false, refusals: [{ about: "placeId" }] });
  expect(make({ purpose: "poster" })).toMatchObject({ ok: false, refusals: [{ about: "purpose" }] });
  expect(
    sheet({ placeId: String(tin), why: "no-capture" })
      .rows()
      .map(({ objectNumber }) => objectNumber),
  ).toEqual(["1978.002"]);
  const urgent = sheet({ most: "2", name: "Monday" });
  expect(urgent).toMatchObject({ onOtherSheets: 1 });
  expect(urgent.rows().map(({ objectNumber }) => objectNumber)).toEqual(["1978.004", "1978.003"]);
  expect(rowOf(urgent.rows(), dear).state).toBe("open");
  expect(
    sheet()
      .rows()
      .map(({ objectNumber }) => objectNumber),
  ).toEqual(["1978.001"]);
  expect(make()).toMatchObject({ ok: false, refusals: [{ happened: "All that is to be captured again waits on a work sheet already." }] });
});

test("a sheet takes two hundred rows, the most urgent ones, and says how many it had no room for", () => {
  const { context, sheet, make } = twoBoxes();
  for (let index = 0; index < 201; index++) keptPrint(context.db, `1980.${String(index).padStart(3, "0")}`, { significance: 2 });
  // two hundred and one without a capture, beside the four of the boxes
  const made = sheet();
  expect(made.lessUrgent).toBe(5);
  expect(made.rows()).toHaveLength(200);
  expect(made.rows().map(({ objectNumber }) => objectNumber)).toContain("1978.004");
  expect(make({ most: "3" })).toMatchObject({ ok: true, value: { rows: 3, lessUrgent: 2, onOtherSheets: 200 } });
  expect(workSheetInput.safeParse({ purpose: "", name: "", placeId: "", why: "", most: "201" }).success).toBe(false);
});

test("what a capture reads is asked for the rows that the sheet takes alone", () => {
  const askedFor = (poorPrints: number) => {
    const { context, make, phone } = twoBoxes();
    for (let index = 0; index < poorPrints; index++) phone(keptPrint(context.db, `1980.${index}`, { significance: 2 }));
    chooseMasters(context);
    const asked = vi.spyOn(context.db.$client, "prepare");
    expect(make({ most: "1" }).ok).toBe(true);
    const ofMeasures = asked.mock.calls.filter(([sql]) => sql.includes("measure_sets"));
    asked.mockRestore();
    return ofMeasures.length;
  };
  expect(askedFor(12)).toBe(askedFor(2));
});

test("a tick waits for the file; a new capture that meets the aim closes the row, and the print's history says so", () => {
  const { context, sheet, poor, none } = twoBoxes();
  const made = sheet();
  const of = { sheetId: made.sheetId, rowId: rowOf(made.rows(), poor).id };
  expect(tickRow(context, of, "tick").ok).toBe(true);
  expect(rowOf(made.rows(), poor).state).toBe("ticked");
  tickRow(context, of, "untick");
  expect(rowOf(made.rows(), poor).state).toBe("open");
  tickRow(context, of, "tick");
  expect(tickRow(context, { ...of, sheetId: 999 }, "tick").ok).toBe(false);

  const good = measuredCapture(context.db, poor, GOOD_ENOUGH, { fileName: "again.tif", method: "copy-stand-camera" });
  chooseMasters(context, { printIds: [poor] });
  expect(rowOf(made.rows(), poor)).toMatchObject({ state: "closed", closedByCaptureId: good });
  expect(rowOf(made.rows(), none).state).toBe("open");
  expect(historyOfPrint(context.db, poor).find(({ subject }) => subject === "work-sheet")).toMatchObject({
    verb: "row closed",
    detail: { fileName: "again.tif" },
  });
  // sent once more from a phone that was slow
  tickRow(context, of, "tick");
  expect(rowOf(made.rows(), poor).state).toBe("closed");
});

test("a new capture that falls short opens the row again with what that capture lacks, also where none was before", () => {
  const { context, sheet, poor, none } = twoBoxes();
  const made = sheet();
  tickRow(context, { sheetId: made.sheetId, rowId: rowOf(made.rows(), poor).id }, "tick");
  for (const printId of [poor, none])
    measuredCapture(
      context.db,
      printId,
      { ...GOOD_ENOUGH, clippedHighlightsPercent: 3 },
      { fileName: "bright.tif", method: "copy-stand-camera" },
    );
  chooseMasters(context);
  for (const printId of [poor, none]) {
    const row = rowOf(made.rows(), printId);
    expect(row).toMatchObject({ state: "open", openedAgainAt: context.now() });
    expect(row.reasons.map(({ measure }) => measure)).toEqual(["clippedHighlightsPercent"]);
  }
  measuredCapture(context.db, none, GOOD_ENOUGH, { fileName: "third.tif" });
  chooseMasters(context);
  expect(rowOf(made.rows(), none).state).toBe("closed");
});

test("a file that waits to be measured leaves the tick, and a closed row opens when its capture leaves the print", () => {
  const { context, sheet, poor } = twoBoxes();
  const made = sheet();
  tickRow(context, { sheetId: made.sheetId, rowId: rowOf(made.rows(), poor).id }, "tick");
  const waiting = measuredCapture(context.db, poor, {}, { fileName: "waits.tif" });
  chooseMasters(context);
  expect(rowOf(made.rows(), poor).state).toBe("ticked");
  deleteCaptures(context.db, [waiting]);
  const good = measuredCapture(context.db, poor, GOOD_ENOUGH, { fileName: "again.tif" });
  chooseMasters(context);
  expect(rowOf(made.rows(), poor).state).toBe("closed");
  deleteCaptures(context.db, [good]);
  chooseMasters(context);
  expect(rowOf(made.rows(), poor)).toMatchObject({ state: "open", closedByCaptureId: null });
  expect(rowOf(made.rows(), poor).reasons.map(({ measure }) => measure)).toEqual(["samplingPpi"]);
});

test("where a person's choice stands, a better capture closes the row all the same, and it stays closed", () => {
  const { context, sheet, poor, poorCapture } = twoBoxes();
  overruleMaster(context, { printId: poor, side: "front", purposeKey: KEY, captureId: poorCapture, reason: "The colours are truer" });
  const made = sheet();
  expect(rowOf(made.rows(), poor).state).toBe("open");
  const good = measuredCapture(context.db, poor, GOOD_ENOUGH, { fileName: "again.tif" });
  chooseMasters(context);
  expect(rowOf(made.rows(), poor)).toMatchObject({ state: "closed", closedByCaptureId: good });
  chooseMasters(context);
  expect(rowOf(made.rows(), poor).state).toBe("closed");
});

test("good enough takes a side from every list until it is taken back, and asks for a reason", () => {
  const { context, sheet, poor, dear } = twoBoxes();
  const made = sheet();
  const say = (reason: string) => exemptFromRecapture(context, { printId: poor, side: "front", purposeKey: KEY, reason });
  expect(say("  ")).toMatchObject({ ok: false, refusals: [{ about: "reason" }] });
  const on = () => recaptureList(context.db, TODAY).map(({ printId }) => printId);
  expect(on()).toContain(poor);
  const said = say("The negative was scanned");
  expect(said.ok).toBe(true);
  expect(on()).not.toContain(poor);
  expect(on()).toContain(dear);
  const [aim] = currentAims(context.db);
  expect(
    recaptureTasks(context.db, aim?.purpose.id ?? 0)
      .map(({ printId }) => printId)
      .sort(),
  ).toEqual(on().sort());
  expect(rowOf(made.rows(), poor).state).toBe("let-go");
  expect(exemptionsOfPurpose(context.db, aim?.purpose.id ?? 0)).toMatchObject([
    { objectNumber: "1978.001", reason: "The negative was scanned" },
  ]);
  // said twice: it is not asked for any more
  expect(say("again").ok).toBe(false);
  // a further capture that falls short changes nothing: the one it was said of is still there
  measuredCapture(context.db, poor, { ...GOOD_ENOUGH, samplingPpi: 310 });
  chooseMasters(context);
  expect(on()).not.toContain(poor);
  expect(rowOf(made.rows(), poor).state).toBe("let-go");

  if (said.ok) askAgain(context, said.value);
  expect(on()).toContain(poor);
  expect(rowOf(made.rows(), poor).state).toBe("open");
  expect(
    historyOfPrint(context.db, poor)
      .filter(({ subject }) => subject === "exemption")
      .map(({ verb }) => verb),
  ).toEqual(["asked again", "exempted"]);
});

test("good enough ends with the aim's version, and with the capture it was said of", () => {
  const { context, poor, dear, poorCapture } = twoBoxes();
  for (const printId of [poor, dear]) exemptFromRecapture(context, { printId, side: "front", purposeKey: KEY, reason: "fine" });
  const on = () => recaptureList(context.db, TODAY).map(({ printId }) => printId);
  expect(on()).not.toContain(poor);
  measuredCapture(context.db, poor, { ...GOOD_ENOUGH, samplingPpi: 310 });
  deleteCaptures(context.db, [poorCapture]);
  chooseMasters(context);
  expect(on()).toContain(poor);
  expect(on()).not.toContain(dear);
  const [aim] = currentAims(context.db);
  if (!aim) throw new Error("no aim");
  context.db.update(schema.aims).set({ current: false }).run();
  insertAim(context.db, aim.purpose.id, { ...aim, version: aim.version + 1 });
  expect(on()).toContain(dear);
});

test("a row let go waits again once good enough lapses: with the capture put away, its reason and the sheet follow the list", () => {
  const { context, sheet, poor, poorCapture, dear } = twoBoxes();
  const made = sheet();
  for (const printId of [poor, dear]) exemptFromRecapture(context, { printId, side: "front", purposeKey: KEY, reason: "fine" });
  expect(rowOf(made.rows(), poor).state).toBe("let-go");
  putAwayCapture(context, { captureId: poorCapture, reason: "Taken in by mistake" });
  expect(rowOf(made.rows(), poor)).toMatchObject({ state: "open", openedAgainAt: context.now(), captureId: null, reasons: [] });
  expect(rowOf(made.rows(), dear).state).toBe("let-go");

  const [aim] = currentAims(context.db);
  if (!aim) throw new Error("no aim");
  context.db.update(schema.aims).set({ current: false }).run();
  insertAim(context.db, aim.purpose.id, { ...aim, version: aim.version + 1 });
  chooseMasters(context);
  expect(rowOf(made.rows(), dear)).toMatchObject({ state: "open", reasons: [{ measure: "samplingPpi" }] });
});

test("a first capture that nobody is to ask for is not asked for, for any purpose, until there is one", () => {
  const { context, none } = twoBoxes();
  exemptFromRecapture(context, { printId: none, side: "front", purposeKey: KEY, reason: "On loan for good" });
  const on = () => recaptureList(context.db, TODAY).map(({ printId }) => printId);
  expect(on()).not.toContain(none);
  for (const { purpose } of currentAims(context.db))
    expect(recaptureTasks(context.db, purpose.id).map(({ printId }) => printId)).not.toContain(none);
  measuredCapture(context.db, none, { ...GOOD_ENOUGH, samplingPpi: 200 });
  chooseMasters(context);
  expect(on()).toContain(none);
});
