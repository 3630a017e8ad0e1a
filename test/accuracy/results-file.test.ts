import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, test } from "vitest";
import { table, writeMade } from "./results-file.ts";

const kept = (text: string) => {
  const file = path.join(mkdtempSync(path.join(tmpdir(), "solander-results-")), "RESULTS.md");
  writeFileSync(file, text);
  return file;
};

test("what a run made takes the place of what the last one made, and what was written by hand round it stays", () => {
  const file = kept("");
  expect(() => writeMade(file, "npm run x", "new")).toThrow("missing");
  const empty = path.join(path.dirname(file), "none-yet.md");
  writeMade(empty, "npm run x", "first");
  const [before, after] = ["# Title\n\nBy hand.\n\n", "\n## Not to trust\n\nBy hand too.\n"];
  writeFileSync(empty, `${before}${readFileSync(empty, "utf8")}${after}`);
  writeMade(empty, "npm run x", "second\n");
  const text = readFileSync(empty, "utf8");
  expect(text.startsWith(before)).toBe(true);
  expect(text.endsWith(after)).toBe(true);
  expect(text).toContain("\n\nsecond\n\n");
  expect(text).not.toContain("first");
  expect(() => writeMade(empty, "npm run y", "third")).toThrow("npm run y");
});

test("a table has its head, a line below it, and its rows", () => {
  expect(table(["a", "b"], [[1, "x"]])).toBe("| a | b |\n| --- | --- |\n| 1 | x |");
});
