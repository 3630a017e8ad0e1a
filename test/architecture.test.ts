import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const ROOT = fileURLToPath(new URL("..", import.meta.url));

/** One row of the import table in DEVELOPERS.md: a file that may import the first, never the second. */
const FENCES = [
  { file: "src/domain/print/canary.ts", allowed: "./print.ts", forbidden: "#drizzle/client.ts" },
  { file: "src/domain/measure/canary.ts", allowed: "./picture.ts", forbidden: "#server/context.ts" },
  { file: "src/domain/master/canary.ts", allowed: "zod", forbidden: "#views/parts/layout.tsx" },
  { file: "src/domain/capture/canary.ts", allowed: "./capture.ts", forbidden: "node:fs" },
  { file: "src/domain/recapture/canary.ts", allowed: "../outcome.ts", forbidden: "sharp" },
  { file: "src/domain/aim/canary.ts", allowed: "../measure/catalogue.ts", forbidden: "../../../drizzle/client.ts" },
  { file: "src/domain/storage/canary.ts", allowed: "./place.ts", forbidden: "../../server/context.ts" },
  { file: "src/domain/inventory/canary.ts", allowed: "../print/print.ts", forbidden: "commander" },
  { file: "src/views/format/canary.ts", allowed: "../parts/layout.tsx", forbidden: "../../../drizzle/client.ts" },
  { file: "drizzle/schema/canary.ts", allowed: "./columns.ts", forbidden: "../../src/server/context.ts" },
  { file: "src/views/pages/canary.tsx", allowed: "#domain/print/print.ts", forbidden: "#drizzle/queries/events.ts" },
  { file: "src/views/parts/canary.tsx", allowed: "hono/jsx", forbidden: "#server/context.ts" },
  { file: "src/server/actions/canary.ts", allowed: "#drizzle/queries/events.ts", forbidden: "drizzle-orm" },
  { file: "src/server/routes/canary.ts", allowed: "#views/parts/layout.tsx", forbidden: "better-sqlite3" },
  { file: "drizzle/queries/canary.ts", allowed: "drizzle-orm", forbidden: "#server/context.ts" },
] as const;

/** What no import fence stops, and another rule does. */
const TRESPASSES = {
  "src/domain/print/hen.ts": 'import { egg } from "./hens-egg.ts";\nexport const hen = () => egg;\n',
  "src/domain/print/hens-egg.ts": 'import { hen } from "./hen.ts";\nexport const egg = () => hen;\n',
  "src/views/pages/raw.tsx": 'export const Raw = () => <p dangerouslySetInnerHTML={{ __html: "x" }} />;\n',
} as const;

/** A silent fence looks like a clean house, so each one is shown a trespasser and must bark. */
test("every import fence stops the forbidden import and lets the allowed one pass", () => {
  const yard = mkdtempSync(path.join(tmpdir(), "solander-fences-"));
  try {
    cpSync(path.join(ROOT, "biome.json"), path.join(yard, "biome.json"));
    symlinkSync(path.join(ROOT, "node_modules"), path.join(yard, "node_modules"));
    spawnSync("git", ["init", "-q"], { cwd: yard });
    for (const { file, allowed, forbidden } of FENCES) {
      mkdirSync(path.join(yard, path.dirname(file)), { recursive: true });
      writeFileSync(path.join(yard, file), `export * as allowed from "${allowed}";\nexport * as forbidden from "${forbidden}";\n`);
    }
    for (const [file, text] of Object.entries(TRESPASSES)) writeFileSync(path.join(yard, file), text);
    const run = spawnSync(path.join(ROOT, "node_modules/.bin/biome"), ["lint", "--reporter=json", "--max-diagnostics=200", "."], {
      cwd: yard,
      encoding: "utf8",
    });
    const report = JSON.parse(run.stdout) as { diagnostics: Diagnostic[] };
    const barks = report.diagnostics
      .filter((each) => each.category === "lint/style/noRestrictedImports")
      .map((each) => `${each.location.path} line ${each.location.start?.line}`)
      .sort();
    expect(barks).toEqual(FENCES.map(({ file }) => `${file} line 2`).sort());
    const barkedAt = (category: string) =>
      report.diagnostics.filter((each) => each.category === category).map((each) => each.location.path);
    expect(barkedAt("lint/suspicious/noImportCycles").sort()).toEqual(["src/domain/print/hen.ts", "src/domain/print/hens-egg.ts"]);
    expect(barkedAt("lint/security/noDangerouslySetInnerHtml")).toEqual(["src/views/pages/raw.tsx"]);
  } finally {
    rmSync(yard, { recursive: true, force: true });
  }
});

const sources = (folder: string): string[] =>
  readdirSync(path.join(ROOT, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => path.join(folder, name));

/** The files below a folder in which a line is found, as paths from the root. */
const holding = (folder: string, pattern: RegExp): string[] =>
  sources(folder).filter((file) => pattern.test(readFileSync(path.join(ROOT, file), "utf8")));

test.each([
  // the command that closes the connection is the one that opened it
  ["SQL is spoken in drizzle alone", "src", /\$client|\bsql`|\.prepare\(/, ["src/server/open-collection.ts"]],
  ["decoders are reached through their policy alone", "src", /^(?!import type ).*from "sharp"/m, ["src/server/images/policy.ts"]],
  ["raw HTML is written by the layout alone", "src", /from "hono\/html"/, ["src/views/parts/layout.tsx"]],
  [
    "the domain asks no clock, no chance, no network and no terminal",
    "src/domain",
    /\bDate\.now\(|\bnew Date\(\)|\bMath\.random\(|\bfetch\(|\bconsole\./,
    [],
  ],
  ["views reach no disk, no clock and no chance", "src/views", /from "(node:|fs)|\bDate\.now\(|\bnew Date\(\)|\bMath\.random\(/, []],
])("%s", (_rule, folder, pattern, allowed) => {
  expect(sources(folder).length, "files must be read for this test to mean anything").toBeGreaterThan(50);
  expect(holding(folder, pattern)).toEqual(allowed);
});

type Diagnostic = { category: string; location: { path: string; start?: { line: number } } };
