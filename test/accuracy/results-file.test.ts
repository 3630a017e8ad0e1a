import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { asked, writeParts, writeRows } from "./results-file.ts";

const kept = (text: string) => {
  const file = join(mkdtempSync(join(tmpdir(), "solander-results-")), "RESULTS.md");
  writeFileSync(file, text);
  return file;
};

const WHOLE =
  "# Title\n\n## One\n\nMade once.\n\n### a: `x`\n\nold a\n\n### b: `x`\n\nold b\n\n## Two\n\n| defect | measure |\n| --- | --- |\n| a | x |\n| b | x |\n\n## Last\n\nwords\n";

test("names are taken after --only, several at once, and the file after --write", () => {
  expect(asked(["--only", "skew", "dust of", "--write", "R.md"])).toEqual({ names: ["skew", "dust of"], file: "R.md" });
  expect(asked([])).toEqual({ names: [], file: null });
  expect(() => asked(["--onyl", "skew"])).toThrow("--onyl");
});

test("a table written anew takes the place of its old one, a new one comes after, and nothing else moves", () => {
  const file = kept(WHOLE);
  writeParts(file, "One", [
    { heading: "a: `x`", body: "new a" },
    { heading: "c: `x`", body: "new c" },
  ]);
  expect(readFileSync(file, "utf8")).toBe(WHOLE.replace("old a", "new a").replace("old b\n\n", "old b\n\n### c: `x`\n\nnew c\n\n"));
});

test("rows written anew take the place of those of the same defect, and the rest of the table stays", () => {
  const file = kept(WHOLE);
  writeRows(file, "Two", ["a", "c"], ["| a | y |"]);
  expect(readFileSync(file, "utf8")).toBe(WHOLE.replace("| a | x |\n| b | x |", "| b | x |\n| a | y |"));
});
