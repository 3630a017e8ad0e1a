import { spawnSync } from "node:child_process";
import { copyFileSync, existsSync, mkdirSync, rmSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { readPlainFile } from "#server/plain-files/read-plain-file.ts";
import { sharp } from "#server/images/policy.ts";
import { measurePlainFile } from "#server/plain-files/measure-plain-files.ts";
import { drawPicture, INSTANT, poseOf } from "../fixtures/pictures.ts";

// Prints what measuring large files costs beside the image library decoding the same file to raw pixels: processor time, time of
// the clock, the most memory a process took, and files per second with one worker and more. Each figure is the median of some runs
// in a process of its own, after one that is told apart as the first (nothing is compiled yet then).
// Run: npx tsx test/bench/large-files.ts [name part]. The files are drawn once (seeded) into the folder for temporary files.

const SAID = { formatId: null, sheetMm: { widthMm: INSTANT.widthMm, heightMm: INSTANT.heightMm }, method: null };
const FOLDER = path.join(tmpdir(), "solander-large-files");
const FILES = [
  { name: "2 MP JPEG", megapixels: 2, file: "2.jpg", bits: 8 },
  { name: "12 MP JPEG", megapixels: 12, file: "12.jpg", bits: 8 },
  { name: "24 MP JPEG", megapixels: 24, file: "24.jpg", bits: 8 },
  { name: "24 MP 16-bit TIFF", megapixels: 24, file: "24.tif", bits: 16 },
  { name: "60 MP 16-bit TIFF", megapixels: 60, file: "60.tif", bits: 16 },
] as const;
const RUNS = 3;
const SEED = 4711;
