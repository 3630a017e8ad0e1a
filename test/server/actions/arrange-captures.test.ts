import { expect, test } from "vitest";
import { findCapture, listCapturesOfOriginal, listCapturesOfPrint, listTray } from "#drizzle/queries/captures.ts";
import { historyOfPrint } from "#drizzle/queries/events.ts";
import { replaceReadings } from "#drizzle/queries/measures.ts";
import { setPrintBinned } from "#drizzle/queries/prints.ts";
import { enqueueMeasure } from "#drizzle/queries/work.ts";
import { measuringOfCaptures, workProgress } from "#drizzle/queries/work-progress.ts";
import { assignCapture } from "#server/actions/assign-capture.ts";
import { cancelWork } from "#server/actions/cancel-work.ts";
import { divideBed } from "#server/actions/divide-bed.ts";
import { resumeWork } from "#server/actions/resume-work.ts";
import { createApp } from "#server/app.ts";
import type { Context } from "#server/context.ts";
import { keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

function shelf() {
  const context = emptyCollection();
  return {
    context,
    first: keptPrint(context.db, "A.1"),
    second: keptPrint(context.db, "A.2"),
    loose: measuredCapture(context.db, null, {}),
  };
}

const quad = (left: number, top: number, width: number, height: number) => ({
  topLeft: { x: left, y: top },
  topRight: { x: left + width, y: top },
  bottomRight: { x: left + width, y: top + height },
  bottomLeft: { x: left, y: top + height },
});

/** A measured bed of 1000 × 800 pixels with two prints on it. */
function bed(context: Context) {
  const id = measuredCapture(context.db, null, {}, { widthPx: 1000, heightPx: 800, method: "flatbed-scanner" });
  replaceReadings(context.db, id, "alone", {
    readings: [],
    basis: { outlines: [quad(100, 100, 200, 300), quad(600, 100, 200, 300)] },
    durationMs: 1,
  });
  return id;
}

test("a capture leaves the tray for a print, with side and method, and is measured with the print's size", () => {
  const { context, first, loose } = shelf();
  expect(assignCapture(context, { captureId: loose, printId: first, side: "back", method: "flatbed-scanner" }).ok).toBe(true);
  expect(findCapture(context.db, loose)).toMatchObject({ printId: first, side: "back", method: "flatbed-scanner", methodBasis: "said" });
  expect(listTray(context.db)).toEqual([]);
  expect(measuringOfCaptures(context.db, [loose]).get(loose)?.state).toBe("waiting");
  expect(historyOfPrint(context.db, first)).toMatchObject([{ verb: "assigned", subjectId: loose }]);
});

test("a capture that moves on leaves a line in both histories, and its old print is looked at again", () => {
  const { context, first, second } = shelf();
  const capture = measuredCapture(context.db, first, {});
  assignCapture(context, { captureId: capture, printId: second });
  expect(historyOfPrint(context.db, first)).toMatchObject([{ verb: "moved away" }]);
  expect(historyOfPrint(context.db, second)).toMatchObject([{ verb: "assigned" }]);
  expect(workProgress(context.db).waiting).toBe(2);
});

test("correcting only the method measures nothing anew", () => {
  const { context, first } = shelf();
  const capture = measuredCapture(context.db, first, {}, { method: "phone-camera" });
  assignCapture(context, { captureId: capture, printId: first, method: "copy-stand-camera" });
  expect(findCapture(context.db, capture)?.method).toBe("copy-stand-camera");
  expect(workProgress(context.db).waiting).toBe(0);
});

test("no capture goes to a print that is not there or lies in the bin", () => {
  const { context, first, loose } = shelf();
  setPrintBinned(context.db, first, "2026-01-01T00:00:00Z");
  expect(assignCapture(context, { captureId: loose, printId: first })).toMatchObject({ ok: false, refusals: [{ about: "printId" }] });
  expect(assignCapture(context, { captureId: loose, printId: 999 })).toMatchObject({ ok: false });
  expect(assignCapture(context, { captureId: 999, printId: null })).toMatchObject({ ok: false });
  expect(listTray(context.db)).toHaveLength(1);
});

test("a bed is divided into captures of its one original, each with its part, its print and its method", () => {
  const { context, first } = shelf();
  const id = bed(context);
  const divided = divideBed(context, {
    captureId: id,
    parts: [
      { outline: 0, printId: first },
      { outline: 1, printId: null },
    ],
  });
  if (!divided.ok) throw new Error(JSON.stringify(divided.refusals));
  const [one, two] = divided.value.captureIds.map((part) => findCapture(context.db, part));
  expect(one).toMatchObject({
    printId: first,
    method: "flatbed-scanner",
    methodBasis: "said",
    region: { left: 94, top: 91 },
    divided: false,
  });
  expect(two).toMatchObject({ printId: null, region: { left: 594, top: 91 } });
  expect(one?.originalId).toBe(two?.originalId);
  expect(findCapture(context.db, id)?.divided).toBe(true);
  expect(listTray(context.db).map((capture) => capture.id)).not.toContain(id);
  expect(listCapturesOfPrint(context.db, first).map((capture) => capture.id)).toEqual([one?.id]);
  expect(workProgress(context.db).waiting).toBe(2);
  expect(historyOfPrint(context.db, first)).toMatchObject([{ verb: "taken in" }]);
});

test.each([
  ["no part", []],
  ["a part that was not found", [{ outline: 2, printId: null }]],
  [
    "a part twice",
    [
      { outline: 0, printId: null },
      { outline: 0, printId: null },
    ],
  ],
  ["a print that does not exist", [{ outline: 0, printId: 999 }]],
])("a bed with %s is not divided", (_, parts) => {
  const { context } = shelf();
  const id = bed(context);
  expect(divideBed(context, { captureId: id, parts })).toMatchObject({ ok: false, refusals: [{ about: "parts" }] });
  expect(listCapturesOfOriginal(context.db, findCapture(context.db, id)?.originalId ?? 0)).toHaveLength(1);
});

test("each part of a divided bed is called by its file and its place among the parts, on screens and in history", async () => {
  const { context, first } = shelf();
  const id = bed(context);
  const file = findCapture(context.db, id)?.original.originalName;
  const parts = [0, 1].map((outline) => ({ outline, printId: outline === 0 ? first : null }));
  const divided = divideBed(context, { captureId: id, parts });
  if (!divided.ok) throw new Error(JSON.stringify(divided.refusals));
  expect(divided.value.captureIds.map((part) => findCapture(context.db, part)?.name)).toEqual([
    `${file} (part 1 of 2)`,
    `${file} (part 2 of 2)`,
  ]);
  expect(findCapture(context.db, id)?.name).toBe(file);
  const app = createApp(context);
  const print = await (await app.request(`/prints/${first}`)).text();
  expect(print.replace(/<[^>]+>/g, "")).toContain(`${file} (part 1 of 2) taken in.`);
  expect((await (await app.request("/tray")).text()).replace(/<[^>]+>/g, "")).toContain(`${file} (part 2 of 2)`);
});

test("a bed is divided once, and one that was not measured waits", () => {
  const { context, loose } = shelf();
  expect(divideBed(context, { captureId: loose, parts: [{ outline: 0, printId: null }] })).toMatchObject({
    refusals: [{ remedy: expect.stringContaining("measured") }],
  });
  const id = bed(context);
  divideBed(context, { captureId: id, parts: [{ outline: 0, printId: null }] });
  expect(divideBed(context, { captureId: id, parts: [{ outline: 1, printId: null }] })).toMatchObject({ ok: false });
  expect(assignCapture(context, { captureId: id, printId: null })).toMatchObject({ ok: false });
});

test("work is cancelled and resumed, and both are written down", () => {
  const { context, loose } = shelf();
  enqueueMeasure(context.db, loose);
  expect(cancelWork(context)).toEqual({ ok: true, value: { cancelled: 1 } });
  expect(resumeWork(context)).toEqual({ ok: true, value: { resumed: 1 } });
  expect(resumeWork(context)).toEqual({ ok: true, value: { resumed: 0 } });
  expect(context.db.$client.prepare("select verb from events where subject = 'collection'").pluck().all()).toEqual([
    "work cancelled",
    "work resumed",
  ]);
});
