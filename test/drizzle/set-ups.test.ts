import { expect, test } from "vitest";
import { setUpInput } from "#domain/capture/set-up.ts";
import { setCapturePutAway } from "#drizzle/queries/captures.ts";
import { insertSetUp, momentsTakenWith } from "#drizzle/queries/set-ups.ts";
import { keptPrint, measuredCapture } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";

test("a capture that was put away tells nothing of the pace of a set-up", () => {
  const { db } = emptyCollection();
  const { id: setUpId } = insertSetUp(db, setUpInput.parse({ name: "Bench", method: "copy-stand-camera" }));
  const at = (minute: number) => `2026-03-01T10:0${minute}:00`;
  const [first, second] = [1, 4].map((minute) =>
    measuredCapture(db, keptPrint(db, `A${minute}`), {}, { setUpId, method: "copy-stand-camera", capturedAt: at(minute) }),
  );
  expect(momentsTakenWith(db, setUpId).sort()).toEqual([at(1), at(4)]);
  setCapturePutAway(db, Number(second), "2026-03-02T10:00:00.000Z");
  expect(momentsTakenWith(db, setUpId)).toEqual([at(1)]);
  setCapturePutAway(db, Number(first), "2026-03-02T10:00:00.000Z");
  expect(momentsTakenWith(db, setUpId)).toEqual([]);
});
