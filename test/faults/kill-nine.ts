import { type ChildProcess, spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { once } from "node:events";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import SQLite from "better-sqlite3";
import sharp from "sharp";
import { programOf } from "#server/work/start-thread.ts";

export type KillReport = { kills: number; killedInTime: number; filesAtKill: number[]; problems: string[] };

const CHILD = new URL("./intake-child.ts", import.meta.url);
const FILES = 12;

/**
 * Kills an intake with SIGKILL, in turns at a random moment of the taking in and of the whole time until all is
 * measured, starts it again, and looks at what is there: right after the kill every written-down original must
 * be whole, and after the second run every file must be there once, measured, and its print judged.
 */
export async function killAtRandomMoments(kills: number, random: () => number): Promise<KillReport> {
  const root = mkdtempSync(path.join(tmpdir(), "solander-kill-"));
  const report: KillReport = { kills: 0, killedInTime: 0, filesAtKill: [], problems: [] };
  try {
    const files = path.join(root, "files");
    // read module by module, the child would take longer to start than to take in
    const program = path.join(root, "child.cjs");
    writeFileSync(program, await programOf(CHILD));
    const run = (collection: string) => spawn(process.execPath, [program, collection, files], { stdio: ["ignore", "pipe", "inherit"] });
    const hashes = await drawFiles(files);
    const { intakeMs, wholeMs } = await timesOf(run(path.join(root, "timed")));
    for (let kill = 0; kill < kills; kill++) {
      const collection = path.join(root, `killed-${kill}`);
      const child = run(collection);
      await once(child.stdout as NodeJS.ReadableStream, "data");
      const ended = once(child, "exit");
      await Promise.race([ended, new Promise((resolve) => setTimeout(resolve, random() * (kill % 2 === 0 ? intakeMs : wholeMs)))]);
      if (child.exitCode === null) report.killedInTime++;
      child.kill("SIGKILL");
      await ended;
      report.filesAtKill.push(written(collection, report.problems).length);
      const again = run(collection);
      const [code] = await once(again, "exit");
      if (code !== 0) report.problems.push(`kill ${kill}: the second run ended with ${code}`);
      const held = written(collection, report.problems).sort();
      if (held.join() !== hashes.join()) report.problems.push(`kill ${kill}: ${held.length} of ${hashes.length} files are there`);
      report.problems.push(...unfinished(collection).map((problem) => `kill ${kill}: ${problem}`));
      report.kills++;
      rmSync(collection, { recursive: true });
    }
    return report;
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
}

/** From the opening of the collection until every file is taken in, and until all are measured, ms. */
async function timesOf(child: ChildProcess): Promise<{ intakeMs: number; wholeMs: number }> {
  const said = child.stdout as NodeJS.ReadableStream;
  await once(said, "data");
  const start = performance.now();
  await once(said, "data");
  const intakeMs = performance.now() - start;
  await once(child, "exit");
  return { intakeMs, wholeMs: performance.now() - start };
}

async function drawFiles(folder: string): Promise<string[]> {
  mkdirSync(folder);
  const hashes: string[] = [];
  for (let index = 0; index < FILES; index++) {
    const sheet = await sharp({ create: { width: 260, height: 320, channels: 3, background: { r: 240, g: 240 - index, b: 230 } } })
      .png()
      .toBuffer();
    const file = path.join(folder, `capture-${index}.png`);
    await sharp({ create: { width: 400, height: 460, channels: 3, background: "#303030" } })
      .composite([{ input: sheet, left: 60, top: 70 }])
      .png()
      .toFile(file);
    hashes.push(createHash("sha256").update(readFileSync(file)).digest("hex"));
  }
  return hashes.sort();
}

/** Hashes of the originals that are written down; each must be on the disk, whole. */
function written(collection: string, problems: string[]): string[] {
  const db = new SQLite(path.join(collection, "solander.db"));
  try {
    if (db.pragma("integrity_check", { simple: true }) !== "ok") problems.push("the database is damaged");
    const hashes = db.prepare("SELECT sha256 FROM originals").pluck().all() as string[];
    const lone = db.prepare("SELECT count(*) FROM originals WHERE id NOT IN (SELECT original_id FROM captures)").pluck().get();
    const unworked = db
      .prepare("SELECT count(*) FROM captures WHERE id NOT IN (SELECT capture_id FROM work WHERE kind = 'measure')")
      .pluck()
      .get();
    if (lone !== 0 || unworked !== 0) problems.push(`${lone} originals without capture, ${unworked} captures without work`);
    for (const hash of hashes) {
      const bytes = readFileSync(path.join(collection, "captures", hash.slice(0, 2), hash));
      if (createHash("sha256").update(bytes).digest("hex") !== hash) problems.push(`the original ${hash} is not whole`);
    }
    return hashes;
  } finally {
    db.close();
  }
}

function unfinished(collection: string): string[] {
  const db = new SQLite(path.join(collection, "solander.db"));
  try {
    const open = db.prepare("SELECT count(*) FROM work WHERE state <> 'done'").pluck().get() as number;
    const unmeasured = db
      .prepare("SELECT count(*) FROM captures WHERE id NOT IN (SELECT capture_id FROM measure_sets WHERE current)")
      .pluck()
      .get() as number;
    const unjudged = db
      .prepare("SELECT count(*) FROM prints WHERE id NOT IN (SELECT print_id FROM choices WHERE superseded_at IS NULL)")
      .pluck()
      .get() as number;
    const leftovers = readdirSync(path.join(collection, "captures", "incoming")).length;
    return [
      ...(open > 0 ? [`${open} pieces of work are not done`] : []),
      ...(unmeasured > 0 ? [`${unmeasured} captures are not measured`] : []),
      ...(unjudged > 0 ? [`${unjudged} prints have no choice`] : []),
      ...(leftovers > 0 ? [`${leftovers} half copies are left`] : []),
    ];
  } finally {
    db.close();
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const report = await killAtRandomMoments(Number(process.argv[2] ?? 50), Math.random);
  const { kills, killedInTime, filesAtKill, problems } = report;
  console.log(`${kills} kills, ${killedInTime} before the intake was through; written down at the kill: ${filesAtKill.join(" ")}`);
  console.log(problems.length === 0 ? "Nothing lost, doubled or left over." : problems.join("\n"));
  process.exitCode = problems.length === 0 ? 0 : 1;
}
