import { mkdtempSync, readdirSync, renameSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, test } from "vitest";
import { keptIn, stateOf } from "./kept-answers.ts";

const folder = () => mkdtempSync(path.join(tmpdir(), "solander-kept-"));

test("an answer is kept by its name, and one that was not written to its end counts as none", () => {
  const here = folder();
  const kept = keptIn(here);
  expect(kept.read("a / 1")).toBeNull();
  kept.write("a / 1", { answer: { value: 2 }, cpuMs: 3 });
  expect(keptIn(here).read("a / 1")).toMatchObject({ answer: { value: 2 }, cpuMs: 3 });
  expect(kept.read("a / 2")).toBeNull();
  const [file] = readdirSync(here);
  writeFileSync(path.join(here, file as string), '{"name":"a / 1","answ');
  expect(kept.read("a / 1")).toBeNull();
});

test("a program's state changes with a module that it imports, however deep, and with no other", async () => {
  const here = folder();
  const file = (name: string, text: string) => writeFileSync(path.join(here, name), text);
  file("deep.ts", "export const limit = 3;");
  file("middle.ts", 'export { limit } from "./deep.ts";');
  file("entry.ts", 'import { limit } from "./middle.ts"; console.log(limit);');
  file("other.ts", "console.log(1);");
  const state = () => stateOf(path.join(here, "entry.ts"));
  const before = await state();
  file("other.ts", "console.log(2);");
  expect(await state()).toBe(before);
  file("deep.ts", "export const limit = 4;");
  expect(await state()).not.toBe(before);
});

test("it changes with the bytes of a capture, with its name, and with a capture that is new", async () => {
  const [here, captures] = [folder(), folder()];
  writeFileSync(path.join(here, "entry.ts"), "console.log(1);");
  const capture = (name: string, bytes: readonly number[]) => writeFileSync(path.join(captures, name), Uint8Array.from(bytes));
  const state = () => stateOf(path.join(here, "entry.ts"), captures);
  capture("one.jpg", [1, 2, 3]);
  const states = [await state()];
  expect(await state()).toBe(states[0]);
  capture("one.jpg", [1, 2, 4]);
  states.push(await state());
  capture("two.jpg", [5]);
  states.push(await state());
  renameSync(path.join(captures, "two.jpg"), path.join(captures, "three.jpg"));
  states.push(await state());
  expect(new Set(states).size).toBe(states.length);
});
