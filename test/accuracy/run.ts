import { execFileSync } from "node:child_process";
import { availableParallelism, tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { keptIn, stateOf } from "./kept-answers.ts";
import { RESULTS, today, writeMade } from "./results-file.ts";
import { allParts, partsNamed } from "./tables/parts.ts";
import { tablesOf } from "./tables/whole.ts";
import { withoutLadder } from "./without-ladder.ts";
import { workThrough } from "./work-through.ts";

// How every measure follows a defect of known strength, and which measures another defect disturbs, as Markdown, by all cores.
// Run: npm run accuracy [-- --write] [--only NAME…] [--seeds 11,12] [--processes 2]. A name is that of a measure that a ladder reads, or part
// of a defect's. What is done is kept in the folder for temporary files until a source changes: a run that was stopped goes on where it was.
// --write keeps a whole run in RESULTS.md; the seeds of that are used for nothing else, so leave them alone while a measure is being made.

const SEEDS = [9101, 9102, 9103];
const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const RESTS_ON = [
  "src",
  "test/fixtures",
  "test/accuracy/ladders",
  "test/accuracy/ladder.ts",
  "test/accuracy/tasks.ts",
  "demo-collection/captures",
];
const COMMAND = "npm run accuracy -- --write";

const { values, positionals } = parseArgs({
  options: {
    only: { type: "string", multiple: true, default: [] },
    seeds: { type: "string" },
    processes: { type: "string" },
    write: { type: "boolean", default: false },
  },
  allowPositionals: true,
});
const seeds = values.seeds ? values.seeds.split(",").map(Number) : SEEDS;
const names = [...values.only, ...positionals];
if (values.write && (names.length > 0 || values.seeds)) throw new Error("RESULTS.md keeps whole runs only: leave out --only and --seeds");

const parts = partsNamed(allParts(seeds), names);
// the longest pieces first, so that no core waits for one of them at the end
const wanted = parts.flatMap(({ tasks }) => tasks).toReversed();
const state = await stateOf(fileURLToPath(new URL("./tasks.ts", import.meta.url)));
const kept = keptIn(path.join(tmpdir(), "solander-accuracy", state));
const answers = new Map<string, unknown>();
let cpuMs = 0;
for (const { name } of wanted) {
  const before = kept.read(name);
  if (!before) continue;
  answers.set(name, before.answer);
  cpuMs += before.cpuMs;
}
const [started, from] = [Date.now(), program()];
const waiting = wanted.map(({ name }) => name).filter((name) => !answers.has(name));
console.error(`${wanted.length} pieces, ${answers.size} of them done before.`);
await workThrough(waiting, seeds, Number(values.processes ?? availableParallelism()), ({ name, ...done }) => {
  kept.write(name, done);
  answers.set(name, done.answer);
  cpuMs += done.cpuMs;
  console.error(`${answers.size} of ${wanted.length}, ${minutes(Date.now() - started)} min: ${name}`);
});

const made = `Made on ${today()} by \`${values.write ? COMMAND : "npm run accuracy"}\` of the program at ${from}, in one run with the seeds ${seeds.join(", ")}: ${wanted.length} pieces, ${minutes(cpuMs)} minutes of processor time.`;
if (values.write) writeMade(RESULTS, COMMAND, [made, tablesOf(parts, answers), withoutLadder()].join("\n\n"));
else console.log(`${made}\n\n${tablesOf(parts, answers)}`);

function minutes(ms: number): string {
  return (ms / 60_000).toFixed(1);
}

/** The last commit that changed what the numbers rest on, and whether anything of it was changed since. */
function program(): string {
  const git = (...words: string[]) => execFileSync("git", words, { cwd: ROOT, encoding: "utf8" }).trim();
  const changed = git("status", "--porcelain", "--untracked-files=all", "--", ...RESTS_ON);
  return `commit ${git("log", "-1", "--format=%h", "--", ...RESTS_ON)}${changed ? " with changes that are not committed" : ""}`;
}
