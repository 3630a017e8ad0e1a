import { mkdirSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import type { Method } from "#domain/capture/method.ts";
import type { Placed } from "./capture-model/scene.ts";
import { truthsOf } from "./capture-model/taken.ts";
import { FAMILY } from "./family/all-prints.ts";
import type { DemoPrint } from "./family/demo-print.ts";
import { PLACES, SET_UPS } from "./family/places.ts";
import type { DemoCapture, Manifest } from "./manifest.ts";
import { COPY_STAND_CAPTURES } from "./plan/copy-stand-captures.ts";
import { PHONE_CAPTURES } from "./plan/phone-captures.ts";
import type { PlannedCapture } from "./plan/planned-capture.ts";
import { FLATBED_CAPTURES, SHEET_FED_CAPTURES } from "./plan/scanner-captures.ts";
import { makeBack, makeFront, type Sheet } from "./print-maker.ts";
import { writeCapture } from "./write-capture.ts";

/** Draws the prints and makes every capture of the demo collection again. Words given on the command line pick files by part of their name, for a quick look. */

const HERE = path.dirname(fileURLToPath(import.meta.url));
const PLANNED: readonly PlannedCapture[] = [...PHONE_CAPTURES, ...SHEET_FED_CAPTURES, ...FLATBED_CAPTURES, ...COPY_STAND_CAPTURES];
/** The same bytes once more under another name, as they turn up in every family's folders. */
const COPIES = [{ file: "copy of harbour.jpg", of: "1981.002.03_phone-1.jpg" }] as const;

const METHOD_OF: Readonly<Record<PlannedCapture["output"]["device"], Method>> = {
  phone: "phone-camera",
  "sheet-fed": "sheet-fed-scanner",
  flatbed: "flatbed-scanner",
  "copy camera": "copy-stand-camera",
};

/** The sheet last drawn: its other captures come next. */
let lastDrawn: { key: string; sheet: Sheet } | null = null;

const wanted = process.argv.slice(2);
const out = wanted.length === 0 ? path.join(HERE, "captures") : path.join(tmpdir(), "demo-look");
await build();

async function build(): Promise<void> {
  mkdirSync(out, { recursive: true });
  for (const file of readdirSync(out)) rmSync(path.join(out, file));
  const captures: DemoCapture[] = [];
  let bytes = 0;
  // print by print, so that a sheet is drawn once for all captures of the same age
  const ordered = [...PLANNED].sort((a, b) => compare(a.prints[0], b.prints[0]) || (a.ageing ?? 0) - (b.ageing ?? 0));
  for (const planned of ordered) {
    if (wanted.length > 0 && !wanted.some((word) => planned.file.includes(word))) continue;
    const { capture, written } = await make(planned);
    captures.push(capture);
    bytes += written.length;
    writeFileSync(path.join(out, capture.file), written);
    for (const copy of COPIES.filter(({ of }) => of === capture.file)) {
      writeFileSync(path.join(out, copy.file), written);
      captures.push({ ...capture, file: copy.file, namesItsPrint: false, wrong: "the same bytes twice", sameBytesAs: copy.of });
    }
    console.log(`${capture.file.padEnd(36)} ${(written.length / 1e6).toFixed(2)} MB`);
  }
  captures.sort((a, b) => compare(a.file, b.file));
  writeManifest(captures);
  console.log(`${captures.length} files, ${(bytes / 1e6).toFixed(1)} MB`);
}

async function make(planned: PlannedCapture): Promise<{ capture: DemoCapture; written: Buffer }> {
  const side = planned.side ?? "front";
  const sheets: Placed[] = [];
  for (const number of planned.prints) sheets.push(await place(printOf(number), side, planned.ageing ?? 0));
  const taken = planned.take(sheets);
  const written = await writeCapture(taken.codes, planned.output, planned.takenAt);
  const capture: DemoCapture = {
    file: planned.file,
    method: METHOD_OF[planned.output.device],
    setUp: planned.setUp,
    side,
    prints: [...planned.prints],
    namesItsPrint: planned.prints.length === 1 && planned.file.startsWith(planned.prints[0] as string),
    takenAt: planned.takenAt,
    wrong: planned.wrong,
    sameBytesAs: null,
    truth: truthsOf(taken),
  };
  return { capture, written };
}

async function place(print: DemoPrint, side: "front" | "back", ageing: number): Promise<Placed> {
  const key = `${print.objectNumber} ${side} ${ageing}`;
  if (lastDrawn?.key !== key) {
    const { objectNumber, drawing } = print;
    lastDrawn = { key, sheet: side === "front" ? await makeFront(objectNumber, drawing, ageing) : await makeBack(objectNumber, drawing) };
  }
  return { objectNumber: print.objectNumber, drawing: print.drawing, sheet: lastDrawn.sheet, centreMm: [0, 0], turnDegrees: 0 };
}

function printOf(number: string): DemoPrint {
  const print = FAMILY.find(({ objectNumber }) => objectNumber === number);
  if (!print) throw new Error(`no print ${number} in the family`);
  return print;
}

function writeManifest(captures: DemoCapture[]): void {
  const manifest: Manifest = {
    name: "The Averins of Lissamouth",
    objectNumberPattern: "{year}.{lot:3}.{item:2}",
    places: [...PLACES],
    setUps: [...SET_UPS],
    prints: FAMILY.map(({ objectNumber, place, fields, people = [], subjects = [] }) => ({
      objectNumber,
      place,
      fields: { ...fields },
      people: [...people],
      subjects: [...subjects],
    })),
    captures,
  };
  writeFileSync(path.join(wanted.length === 0 ? HERE : out, "manifest.json"), `${JSON.stringify(manifest, null, 1)}\n`);
}

function compare(a: string | undefined, b: string | undefined): number {
  return (a ?? "").localeCompare(b ?? "", "en");
}
