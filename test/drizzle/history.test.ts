import { expect, test } from "vitest";
import { historyOfPrint, recordEvent } from "#drizzle/queries/events.ts";
import { emptyCollection } from "../fixtures/collection.ts";

test("history can be added to and read, newest first", () => {
  const { db, userId } = emptyCollection();
  recordEvent(db, { userId, verb: "created", subject: "print", subjectId: 7, printId: 7 });
  recordEvent(db, { userId, verb: "edited", subject: "print", subjectId: 7, printId: 7, detail: { title: "Regatta" } });
  expect(historyOfPrint(db, 7).map((line) => [line.verb, line.who])).toEqual([
    ["edited", "Keeper"],
    ["created", "Keeper"],
  ]);
});

test("history cannot be rewritten or removed", () => {
  const { db, userId } = emptyCollection();
  recordEvent(db, { userId, verb: "created", subject: "print", subjectId: 7, printId: 7 });
  expect(() => db.$client.exec("UPDATE events SET verb = 'forged'")).toThrow("only ever added");
  expect(() => db.$client.exec("DELETE FROM events")).toThrow("only ever added");
  expect(historyOfPrint(db, 7)).toHaveLength(1);
});
