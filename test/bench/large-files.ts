import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync } from "node:fs";
import { availableParallelism, tmpdir, totalmem } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { median } from "#domain/measure/numbers/robust.ts";
import { sharp } from "#server/images/policy.ts";
import { measureInOrder } from "#server/plain-files/measure-in-order.ts";
import { measurePlainFile } from "#server/plain-files/measure-plain-files.ts";
import { RESULTS, row, table, today, writeMade } from "../accuracy/results-file.ts";
import { drawPicture, INSTANT, poseOf } from "../fixtures/pictures.ts";

// Prints what measuring large files costs beside the image library decoding the same file to raw pixels: processor time (other work
// on the machine hardly counts in it), the most memory the process held, and files a minute with one worker and with two, and the
// processor time of a file in both. Each figure comes from a process of its own: the first run, in which nothing is compiled yet, and the
// median of the next three.
// Run: npm run bench:large-files [-- part of a name, or --write to keep all of it in test/accuracy/RESULTS.md]. The files are drawn once, seeded, into the folder for temporary files.

const COMMAND = "npm run bench:large-files";
const FOLDER = path.join(tmpdir(), "solander-large-files");
const FILES = [
  { name: "2 MP JPEG", megapixels: 2, kind: "jpg", atOnce: 48 },
  { name: "12 MP JPEG", megapixels: 12, kind: "jpg", atOnce: 16 },
  { name: "24 MP JPEG", megapixels: 24, kind: "jpg", atOnce: 8 },
  { name: "24 MP 16-bit TIFF", megapixels: 24, kind: "tif", atOnce: 8 },
  { name: "60 MP 16-bit TIFF", megapixels: 60, kind: "tif", atOnce: 8 },
] as const;
const SAID = { formatId: null, sheetMm: { widthMm: INSTANT.widthMm, heightMm: INSTANT.heightMm }, method: null };
const RUNS = 3;

type Cost = { readonly firstMs: number; readonly laterMs: number; readonly peakMb: number };

const [task, of] = process.argv.slice(2);
if (task === "--decode") tell(await costOf(() => decode(of as string)));
else if (task === "--measure") tell(await costOf(() => measurePlainFile(of as string, SAID)));
else if (task === "--throughput") tell(await throughput(of as string));
else if (task === "--draw") tell(await draw(of as string).then(() => "drawn"));
else if (task === "--write") writeMade(RESULTS, `${COMMAND} -- --write`, `${made()}\n\n${tableOf("")}`);
else tableOf(task ?? "");

/** Told as it comes, since it takes a while; the whole is the answer. */
function tableOf(part: string): string {
  mkdirSync(FOLDER, { recursive: true });
  const head = [
    "file",
    "decode ms/MP",
    "first measure ms/MP",
    "measure ms/MP",
    "times the decode",
    "peak MB",
    "files/min, 1 worker",
    "2 workers",
    "ms of a file, 1 worker",
    "2 workers",
  ];
  const rows: (readonly string[])[] = [];
  console.log(table(head, rows));
  for (const { name, megapixels, kind } of FILES.filter((file) => file.name.includes(part))) {
    const file = path.join(FOLDER, `${megapixels}.${kind}`);
    if (!existsSync(file)) ownProcess("--draw", file);
    const decoded = ownProcess("--decode", file) as Cost;
    const measured = ownProcess("--measure", file) as Cost;
    const [one, two] = ownProcess("--throughput", file) as [Throughput, Throughput];
    const perMegapixel = (ms: number) => (ms / megapixels).toFixed(1);
    const ratio = (measured.laterMs / decoded.laterMs).toFixed(1);
    const [first, later] = [perMegapixel(measured.firstMs), perMegapixel(measured.laterMs)];
    const rates = [one, two].map(({ aMinute }) => aMinute.toFixed(1));
    const costs = [one, two].map(({ msOfOne }) => msOfOne.toFixed(0));
    rows.push([name, perMegapixel(decoded.laterMs), first, later, ratio, measured.peakMb.toFixed(0), ...rates, ...costs]);
    console.log(row(rows.at(-1) ?? []));
  }
  return table(head, rows);
}

function made(): string {
  const memoryGb = Math.round(totalmem() / 2 ** 30);
  return `Made on ${today()} by \`${COMMAND} -- --write\` on a machine of ${availableParallelism()} cores and ${memoryGb} GB, Node ${process.versions.node}.`;
}

function ownProcess(what: string, file: string): unknown {
  const { stdout, status } = spawnSync(process.execPath, ["--import", "tsx", fileURLToPath(import.meta.url), what, file], {
    stdio: ["ignore", "pipe", "inherit"],
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(`${what} of ${file} failed`);
  return JSON.parse(stdout);
}

function tell(answer: unknown): void {
  console.log(JSON.stringify(answer));
}

async function decode(file: string): Promise<void> {
  const is16 = file.endsWith(".tif");
  await sharp(file)
    .raw({ depth: is16 ? "ushort" : "uchar" })
    .toBuffer();
}

async function costOf(work: () => Promise<unknown>): Promise<Cost> {
  const times: number[] = [];
  for (let run = 0; run <= RUNS; run++) {
    const before = process.cpuUsage();
    await work();
    const { user, system } = process.cpuUsage(before);
    times.push((user + system) / 1000);
  }
  return { firstMs: times[0] as number, laterMs: median(times.slice(1)), peakMb: process.resourceUsage().maxRSS / 1024 };
}

/** `msOfOne`: processor time of one of the files, that of compiling and of letting memory go included. */
type Throughput = { readonly aMinute: number; readonly msOfOne: number };

/**
 * With one worker and with two; the start of the threads, and the time until their code is compiled, is in it. Each thread compiles anew, which
 * takes as long as several files of 2 megapixels: so of small files as many are measured as a small collection holds, that a growth with
 * cores may show. Of large ones eight are enough.
 */
async function throughput(file: string): Promise<Throughput[]> {
  const count = FILES.find(({ megapixels, kind }) => path.basename(file) === `${megapixels}.${kind}`)?.atOnce ?? 8;
  const found: Throughput[] = [];
  for (const workers of [1, 2]) {
    const start = performance.now();
    const before = process.cpuUsage();
    const files = new Array<string>(count).fill(file);
    for await (const outcome of measureInOrder(files, SAID, new AbortController().signal, workers))
      if (!outcome.ok) throw new Error(outcome.refusals[0]?.happened);
    const { user, system } = process.cpuUsage(before);
    found.push({ aMinute: (count * 60_000) / (performance.now() - start), msOfOne: (user + system) / 1000 / count });
  }
  return found;
}

/** An instant print on a dark cloth, so large that its sheet fills most of the frame. */
async function draw(file: string): Promise<void> {
  const pixels = Number.parseInt(path.basename(file), 10) * 1e6;
  const widthPx = Math.round(Math.sqrt(pixels * 0.82));
  const heightPx = Math.round(pixels / widthPx);
  const ppi = (0.86 * heightPx * 25.4) / INSTANT.heightMm;
  const pose = poseOf({ ...INSTANT, ppi, centre: { x: widthPx / 2, y: heightPx / 2 }, turnDeg: 1.2, keystoneAcross: 0.01 });
  const scene = { widthPx, heightPx, prints: [{ ...INSTANT, pose }], bedPxPerMm: ppi / 25.4, blurPx: 1, bits: 16, seed: 4711 } as const;
  const { picture } = drawPicture(scene);
  const image = sharp(picture.codes, { raw: { width: widthPx, height: heightPx, channels: 3 } });
  if (file.endsWith(".jpg")) await image.toColourspace("srgb").jpeg({ quality: 92 }).toFile(file);
  else await image.toColourspace("rgb16").tiff({ compression: "none" }).toFile(file);
}
