import { expect, test } from "vitest";
import { candidatesOfPrint, leanCandidates, listPrintsToChooseFor } from "#drizzle/queries/candidates.ts";
import { findCapture, listCaptureIds, listCapturesOfPrint, listTray } from "#drizzle/queries/captures.ts";
import { listChoicesOfPrint } from "#drizzle/queries/choices.ts";
import { historyOfPrint } from "#drizzle/queries/events.ts";
import { filesOfPrints } from "#drizzle/queries/files-of-prints.ts";
import { listKnownCaptures, replaceFingerprints } from "#drizzle/queries/fingerprints.ts";
import { countCollection, listRecentCaptures } from "#drizzle/queries/overview.ts";
import { findPrint, listPrints } from "#drizzle/queries/prints.ts";
import { listPutAway, putAwayOf } from "#drizzle/queries/put-away.ts";
import { recaptureList } from "#drizzle/queries/recapture.ts";
import { enqueueMeasure, remeasurePrint } from "#drizzle/queries/work.ts";
import { measuringOfCaptures } from "#drizzle/queries/work-progress.ts";
import { assignCapture } from "#server/actions/assign-capture.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { divideBed } from "#server/actions/divide-bed.ts";
import { measureAgain } from "#server/actions/measure-again.ts";
import { overruleMaster } from "#server/actions/overrule-master.ts";
import { putAwayCapture, takeBackCapture } from "#server/actions/put-away-capture.ts";
import { setOutline } from "#server/actions/set-outline.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const NO_FILTER = {
  search: "",
  processId: null,
  formatId: null,
  placeId: null,
  firstDay: null,
  lastDay: null,
  captures: "any",
  recapture: "any",
  sort: "number",
  direction: "ascending",
  page: 1,
  perPage: null,
} as unknown as Parameters<typeof listPrints>[1];

/** A print with a good capture and one of another print that was taken in for it by mistake, which looks better. */
function mistaken() {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  const right = measuredCapture(context.db, printId, { ...GOOD_ENOUGH, samplingPpi: 410 }, { fileName: "right.tif" });
  const wrong = measuredCapture(context.db, printId, { ...GOOD_ENOUGH, samplingPpi: 600 }, { fileName: "wrong.tif" });
  replaceFingerprints(context.db, wrong, { print: new Float32Array(4), frame: null });
  chooseMasters(context);
  const master = () => listChoicesOfPrint(context.db, printId).find(({ purpose }) => purpose.key === "preservation-master")?.captureId;
  const putAway = () => putAwayCapture(context, { captureId: wrong, reason: "It shows another print." });
  return { context, db: context.db, printId, right, wrong, master, putAway };
}

test("a capture that is put away leaves choices, lists and comparisons, and its print is judged without it at once", () => {
  const { db, printId, right, wrong, master, putAway } = mistaken();
  expect(master(), "else the test shows nothing").toBe(wrong);
  expect(listKnownCaptures(db)).toHaveLength(1);
  putAway();
  expect(master()).toBe(right);
  expect(listCapturesOfPrint(db, printId).map(({ id }) => id)).toEqual([right]);
  expect(listCaptureIds(db)).toEqual([right]);
  expect(candidatesOfPrint(db, printId).front.map(({ captureId }) => captureId)).toEqual([right]);
  expect(leanCandidates(db, [printId], ["samplingPpi"]).map(({ captureId }) => captureId)).toEqual([right]);
  expect(
    filesOfPrints(db, [printId])
      .get(printId)
      ?.map(({ captureId }) => captureId),
  ).toEqual([right]);
  expect(listRecentCaptures(db, 10).map(({ id }) => id)).toEqual([right]);
  expect(listKnownCaptures(db)).toEqual([]);
  expect(countCollection(db).captures).toBe(1);
  expect(listPrints(db, NO_FILTER).rows[0]).toMatchObject({ captureCount: 1, captureId: right });
  remeasurePrint(db, printId);
  expect([...measuringOfCaptures(db, [right, wrong]).keys()]).toEqual([right]);
});

test("a print whose only capture is put away waits for its first one again", () => {
  const { context, db, printId, right, putAway } = mistaken();
  putAway();
  putAwayCapture(context, { captureId: right, reason: "Neither shows it." });
  expect(countCollection(db)).toMatchObject({ captures: 0, printsWithoutCapture: 1, inTray: 0 });
  const print = findPrint(db, printId);
  if (!print) throw new Error("the print is gone");
  expect(recaptureList(db, "2026-11-26", { prints: [print] }).map(({ best }) => best)).toContain(null);
  expect(listPrintsToChooseFor(db)).toEqual([printId]);
});

test("the history says who put a capture away, when and why, and that it was taken back", () => {
  const { context, db, printId, wrong, putAway } = mistaken();
  putAway();
  expect(putAwayOf(db, wrong)).toMatchObject({ name: "wrong.tif", reason: "It shows another print.", print: { objectNumber: "1978.001" } });
  expect(listPutAway(db)).toHaveLength(1);
  takeBackCapture(context, { captureId: wrong });
  expect(listPutAway(db)).toEqual([]);
  expect(
    historyOfPrint(db, printId)
      .map(({ verb }) => verb)
      .filter((verb) => verb === "put away" || verb === "taken back"),
  ).toEqual(["taken back", "put away"]);
});

test("taken back, a capture is with its print and side again and is measured anew", () => {
  const { context, db, printId, wrong, putAway } = mistaken();
  putAway();
  takeBackCapture(context, { captureId: wrong });
  expect(findCapture(db, wrong)).toMatchObject({ printId, side: "front", putAwayAt: null });
  expect(measuringOfCaptures(db, [wrong]).get(wrong)?.state).toBe("waiting");
});

test("a capture in the tray is put away too, and what waited to be measured of it is dropped", () => {
  const context = emptyCollection();
  const captureId = measuredCapture(context.db, null, {});
  enqueueMeasure(context.db, captureId);
  putAwayCapture(context, { captureId, reason: "A holiday picture." });
  expect(listTray(context.db)).toEqual([]);
  expect(measuringOfCaptures(context.db, [captureId]).size).toBe(0);
});

test("a master that a person chose lapses when its capture is put away", () => {
  const { context, printId, right, wrong, master, putAway } = mistaken();
  overruleMaster(context, { printId, side: "front", purposeKey: "preservation-master", captureId: wrong, reason: "Sharper." });
  putAway();
  expect(master()).toBe(right);
  expect(historyOfPrint(context.db, printId).map(({ verb }) => verb)).toContain("lapsed");
});

test("putting away twice keeps the first day and reason, and a capture that is there is not taken back", () => {
  const { context, db, printId, wrong, putAway } = mistaken();
  takeBackCapture(context, { captureId: wrong });
  putAway();
  const first = putAwayOf(db, wrong);
  putAwayCapture(context, { captureId: wrong, reason: "Another reason." });
  expect(putAwayOf(db, wrong)).toEqual(first);
  expect(historyOfPrint(db, printId).filter(({ verb }) => verb === "taken back")).toEqual([]);
});

test("nothing else is done to a capture that is put away", () => {
  const { context, db, wrong, putAway } = mistaken();
  putAway();
  const before = findCapture(db, wrong);
  const asked = [
    assignCapture(context, { captureId: wrong, printId: null }),
    measureAgain(context, { captureId: wrong }),
    setOutline(context, { captureId: wrong, corners: null }),
    divideBed(context, { captureId: wrong, parts: [{ outline: 0, printId: null }] }),
  ];
  for (const outcome of asked) expect(outcome).toMatchObject({ ok: false, refusals: [{ happened: "This capture was put away." }] });
  expect(findCapture(db, wrong)).toEqual(before);
});
