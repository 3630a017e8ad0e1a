import { createHash } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
/** What the tasks rest on beside the modules they import: the packages' versions, outlines and truths that are read as data. */
const ALSO = ["package-lock.json", "test/fixtures/dust-polygons/scan10.json", "demo-collection/manifest.json"];

/** Captures that tasks measure as they are. */
const CAPTURES = path.join(ROOT, "demo-collection/captures");

/**
 * Tells one state of a program from another: a hash of every module of ours that `entry` imports, of the packages, of Node and of the bytes
 * of every file in a folder of captures.
 */
export async function stateOf(entry: string, captures = CAPTURES): Promise<string> {
  const { metafile } = await build({
    entryPoints: [entry],
    absWorkingDir: ROOT,
    bundle: true,
    packages: "external",
    platform: "node",
    format: "esm",
    metafile: true,
    write: false,
    logLevel: "silent",
  });
  const hash = createHash("sha256").update(process.version);
  for (const file of [...Object.keys(metafile.inputs), ...ALSO].toSorted())
    hash.update(`\n${file}\n`).update(readFileSync(path.resolve(ROOT, file)));
  for (const file of readdirSync(captures).toSorted()) hash.update(`\n${file}\n`).update(readFileSync(path.join(captures, file)));
  return hash.digest("hex").slice(0, 16);
}

export type Kept = { readonly answer: unknown; readonly cpuMs: number };

/** Answers kept in a folder, a file each, so that a run that was stopped goes on where it was. */
export function keptIn(folder: string) {
  mkdirSync(folder, { recursive: true });
  const fileOf = (name: string) => path.join(folder, `${createHash("sha256").update(name).digest("hex").slice(0, 24)}.json`);
  return {
    /** null where there is none, or where it was not written to its end */
    read(name: string): Kept | null {
      try {
        const kept = JSON.parse(readFileSync(fileOf(name), "utf8"));
        return kept.name === name ? kept : null;
      } catch {
        return null;
      }
    },
    write(name: string, kept: Kept): void {
      const file = fileOf(name);
      writeFileSync(`${file}.part`, JSON.stringify({ name, ...kept }));
      renameSync(`${file}.part`, file);
    },
  };
}
