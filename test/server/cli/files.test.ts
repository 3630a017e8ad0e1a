import { copyFileSync, createReadStream, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { readingsOfCaptures } from "#drizzle/queries/measures.ts";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { jsonSchemaOf, REPORT_SCHEMAS } from "#server/cli/schemas.ts";
import { startWork } from "#server/work/queue.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { codesAsImage } from "../../fixtures/image-files.ts";
import { drawPicture, poseOf } from "../../fixtures/pictures.ts";
import { committed, problemsOf, solander } from "./command-line.ts";

const NAMES = Object.keys(REPORT_SCHEMAS) as (keyof typeof REPORT_SCHEMAS)[];

const pick = (of: Readonly<Record<string, unknown>>, names: readonly string[]) =>
  Object.fromEntries(names.map((name) => [name, of[name] ?? null]));

const SHEET = ["--sheet-mm", "44x52"];
let folder = "";
const paths: string[] = [];

beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), "solander-files-"));
  const drawn = [
    { name: "even.png", blurPx: 0.6 },
    { name: "soft.png", blurPx: 1.2 },
  ];
  for (const { name, blurPx } of drawn) {
    const { picture } = captureSheet({ seed: 7, blurPx, turnDeg: 2 });
    const bytes = await codesAsImage(picture.codes, picture.widthPx, picture.heightPx, 3).png().toBuffer();
    paths.push(path.join(folder, name));
    writeFileSync(path.join(folder, name), bytes);
  }
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("files beside no collection", () => {
  test.each(NAMES)("the committed JSON Schema of a %s is the one that the program answers by (npm run schemas)", (name) => {
    expect(JSON.parse(committed(name))).toEqual(JSON.parse(JSON.stringify(jsonSchemaOf(name))));
  });

  test("are measured one object a line, as the schema says, with the corners that were drawn", async () => {
    const { code, answer } = await solander(["measure", ...paths, ...SHEET, "--json"]);
    expect(code).toBe(0);
    const reports = answer
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(reports.map(({ file }) => file)).toEqual(paths);
    for (const report of reports) expect(problemsOf("capture-report", report)).toEqual([]);
    const { truth } = captureSheet({ seed: 7, turnDeg: 2 });
    const corners = [truth.sheet.topLeft, truth.sheet.topRight, truth.sheet.bottomRight, truth.sheet.bottomLeft];
    reports[0].outlinePx.forEach(([x, y]: [number, number], index: number) => {
      expect(Math.hypot(x - (corners[index]?.x ?? 0), y - (corners[index]?.y ?? 0))).toBeLessThan(0.5);
    });
    const ppi = reports[0].measures.find(({ name }: { name: string }) => name === "samplingPpi");
    expect(ppi.value).toBeCloseTo(200, 0);
  });

  test("masks are written as large as the file, white where glare was found and black elsewhere", async () => {
    const { picture, truth } = captureSheet({ seed: 9, turnDeg: 0, glare: [{ x: 250, y: 250, sigmaPx: 22, peak: 1.5 }] });
    const file = path.join(folder, "glare.png");
    writeFileSync(file, await codesAsImage(picture.codes, picture.widthPx, picture.heightPx, 3).png().toBuffer());
    const masks = path.join(folder, "masks");
    const { answer, told } = await solander(["measure", file, ...SHEET, "--masks", masks, "--json"]);
    const report = JSON.parse(answer);
    const name = `glare.${report.sha256.slice(0, 8)}.glareAreaPercent.png`;
    expect(told).toContain(`${name} written.`);
    const { data, info } = await sharp(path.join(masks, name)).extractChannel(0).raw().toBuffer({ resolveWithObject: true });
    expect([info.width, info.height, info.channels]).toEqual([picture.widthPx, picture.heightPx, 1]);
    const at = (x: number, y: number) => data[Math.round(y) * info.width + Math.round(x)];
    expect(at(250, 250)).toBe(255);
    expect(at(truth.image.bottomRight.x - 20, truth.image.bottomRight.y - 20)).toBe(0);
    expect(new Set(data)).toEqual(new Set([0, 255]));
    const { value } = report.measures.find((each: { name: string }) => each.name === "glareAreaPercent");
    const sheetPx = (truth.sheet.bottomRight.x - truth.sheet.topLeft.x) * (truth.sheet.bottomRight.y - truth.sheet.topLeft.y);
    const white = data.reduce((sum, code) => sum + (code === 255 ? 1 : 0), 0);
    expect(Math.abs((100 * white) / sheetPx - value)).toBeLessThan(0.5);
  });

  test("give the same numbers as in a collection, to the last digit", async () => {
    const context = emptyCollection();
    const printId = keptPrint(context.db, "1978.001", { sheetWidthMm: SMALL.widthMm, sheetHeightMm: SMALL.heightMm });
    const file = paths[1] as string;
    const taken = await takeInCapture(context, { source: createReadStream(file), originalName: "soft.png", printId });
    if (!taken.ok) throw new Error(taken.refusals[0]?.happened);
    const work = startWork(context, {});
    await work.idle();
    await work.stop();
    const { captureId } = taken.value;
    const kept = (readingsOfCaptures(context.db, [captureId]).get(captureId) ?? []).filter(({ family }) => family === "alone");
    const { answer } = await solander(["measure", file, ...SHEET, "--json"]);
    const numbers = (readings: readonly { name: string }[]) =>
      Object.fromEntries(
        readings.map((each) => [
          each.name,
          "value" in each ? pick(each as never, ["value", "spread", "reliability"]) : pick(each as never, ["absent"]),
        ]),
      );
    const [inCollection, besideIt] = [numbers(kept), numbers(JSON.parse(answer).measures)];
    expect(Object.keys(inCollection).length).toBeGreaterThan(20);
    expect(besideIt).toEqual(inCollection);
  }, 60_000);

  test("measured together, they carry what only a comparison tells", async () => {
    const { answer } = await solander(["measure", ...paths, ...SHEET, "--together", "--json"]);
    const each = (wanted: string) =>
      answer
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line).measures.filter(({ name }: { name: string }) => name === wanted));
    const glare = each("glareAreaPercent");
    expect(glare.map((each) => each.length)).toEqual([1, 1]);
    expect(glare.map(([one]) => one.detail?.comparedWith)).toEqual([1, 1]);
    // a sheet that was measured gives the size that fine detail is compared in: these two are drawn with one noise, which only shows there
    for (const [one] of each("detailCyPerMm")) expect(one.absent).toMatch(/^it shares fine noise with another capture/);
  });

  test("the sharper of two captures is chosen, in words and for programs", async () => {
    const { code, answer } = await solander(["choose", "--files", ...paths, ...SHEET, "--purpose", "screen", "--json"]);
    const report = JSON.parse(answer);
    expect(problemsOf("choice-report", report)).toEqual([]);
    expect(report).toMatchObject({ purpose: "screen", master: paths[0], order: [{ file: paths[0] }, { file: paths[1] }] });
    expect(report.sureness).toBeGreaterThan(0.5);
    expect(report.closeCall).toBe(report.sureness < 0.9);
    expect(report.turn.sentence).toMatch(/^It would turn if .* in .*(even|soft)\.png were .* instead of /);
    expect(code).toBe(0);
    const all = await solander(["choose", "--files", ...paths, ...SHEET]);
    expect(all.code).toBe(1); // too few pixels for a preservation master
    expect(all.answer).toMatch(/preservation-master: None of 2 captures meets every requirement.*sampling is 200 ppi/);
  });

  test("a file that was named twice is one capture where captures are compared, and that is said", async () => {
    const [even, soft] = paths as [string, string];
    const { answer, told } = await solander(["choose", "--files", even, soft, `${folder}/./even.png`, ...SHEET, "--json"]);
    const orders = answer
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line).order.map(({ file }: { file: string }) => file));
    for (const order of orders) expect(order.toSorted()).toEqual([even, soft]);
    expect(told).toContain(`${folder}/./even.png: It was named more than once, and counts once.`);
    const alone = await solander(["measure", "--together", even, even, ...SHEET, "--json"]);
    expect(alone.answer.trim().split("\n")).toHaveLength(1);
    const glare = JSON.parse(alone.answer).measures.find(({ name }: { name: string }) => name === "glareAreaPercent");
    expect(glare.detail?.comparedWith ?? 0, "with nothing to be compared with").toBe(0);
  });

  test("chosen for every purpose, each answer stands on a line of its own, as the schema says", async () => {
    const { answer } = await solander(["choose", "--files", ...paths, ...SHEET, "--json"]);
    const reports = answer
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(reports.map(({ purpose }) => purpose)).toEqual(PUBLISHED_AIMS.map(({ purpose }) => purpose.key));
    for (const report of reports) expect(problemsOf("choice-report", report)).toEqual([]);
  });

  test("a bed with several prints is never measured silently as one", async () => {
    const print = { ...SMALL, widthMm: 30, heightMm: 36 };
    const ppi = 150;
    const placed = [160, 420, 680].map((x) => ({ ...print, pose: poseOf({ ...print, ppi, centre: { x, y: 190 }, turnDeg: 1 }) }));
    const { picture } = drawPicture({ widthPx: 840, heightPx: 380, prints: placed, background: "dark-cloth", seed: 12 });
    const bed = path.join(folder, "bed.png");
    writeFileSync(bed, await codesAsImage(picture.codes, picture.widthPx, picture.heightPx, 3).png().toBuffer());
    const { answer, told } = await solander(["measure", bed, "--json"]);
    const report = JSON.parse(answer);
    expect(problemsOf("capture-report", report)).toEqual([]);
    expect(report.printsFound).toBe(3);
    expect(told).toMatch(/bed\.png: 3 prints were found in it, and only the largest was measured\. Use divide/);
    const one = await solander(["measure", paths[0] as string, "--json"]);
    expect(JSON.parse(one.answer).printsFound).toBe(1);
    expect(one.told).not.toContain("divide");
  });

  test("the prints of a bed are found where they lie", async () => {
    const { code, answer } = await solander(["divide", paths[0] as string, ...SHEET, "--json"]);
    const report = JSON.parse(answer);
    expect(problemsOf("bed-report", report)).toEqual([]);
    expect(code).toBe(0);
    expect(report.prints).toHaveLength(1);
    expect(report.prints[0].regionPx.width).toBeGreaterThan((SMALL.widthMm / 25.4) * 200);
  });

  test("a bed on which no print is found says what would tell one", async () => {
    const empty = path.join(folder, "empty-bed.png");
    await sharp({ create: { width: 300, height: 200, channels: 3, background: "#333" } })
      .png()
      .toFile(empty);
    const { code, answer } = await solander(["divide", empty]);
    expect(answer).toMatch(/empty-bed\.png: no print found; nothing on it stands out .* A lid that is darker or lighter .* would tell/);
    expect(code).toBe(1);
  });

  test("sides that were seen but may be something else's are told apart from those that were only assumed", async () => {
    // a sheet of 44 × 52 mm has not the proportions that are said here, so that what was found need not be it
    const other = ["divide", paths[0] as string, "--sheet-mm", "30x90"];
    const report = JSON.parse((await solander([...other, "--json"])).answer);
    expect(problemsOf("bed-report", report)).toEqual([]);
    expect(report.prints[0]).toMatchObject({ sides: { top: "assumed" }, doubted: ["top", "right", "bottom", "left"] });
    const { answer } = await solander(other);
    expect(answer).toContain("(top, right, bottom, left seen, but the edge may be something else's)");
    expect(answer).not.toContain("not seen");
  });

  test("the prints of a bed are written upright on demand, as fine as they were scanned, and the bed stays as it was", async () => {
    const straight = path.join(folder, "straight");
    const before = readFileSync(paths[0] as string);
    const { answer } = await solander(["divide", paths[0] as string, ...SHEET, "--straightened", straight, "--json"]);
    const report = JSON.parse(answer);
    expect(problemsOf("bed-report", report)).toEqual([]);
    const written = path.join(straight, `even.${report.sha256.slice(0, 8)}.part-1.png`);
    expect(report.prints[0]).toMatchObject({ straightened: written, said: { widthMm: 44, heightMm: 52 }, claimed: null });
    const words = await solander(["divide", paths[0] as string, ...SHEET, "--straightened", straight]);
    expect(words.answer).toMatch(/ {2}1\. 44\.0 × 52\.0 mm as said, 200 ppi; \d+ × \d+ px from \d+, \d+\n {5}written to .*part-1\.png\n$/);
    const other = path.join(folder, "claims-300.png");
    await sharp(paths[0]).withMetadata({ density: 300 }).png().toFile(other);
    const doubted = await solander(["divide", other, ...SHEET]);
    expect(doubted.answer).toMatch(/44\.0 × 52\.0 mm as said, 200 ppi, or 29\.\d × 34\.\d mm, by the 300 ppi that the file claims; /);
    const claimed = JSON.parse((await solander(["divide", other, "--straightened", straight, "--json"])).answer);
    const parts = [await sharp(claimed.prints[0].straightened).metadata(), await sharp(written).metadata()] as const;
    expect(Math.abs((parts[0].density ?? 0) - 300), "the file's own claim is handed on to its part").toBeLessThan(2);
    expect(Math.abs((parts[0].width ?? 0) - (parts[1].width ?? 0)), "in the file's own pixels").toBeLessThan(2);
    const unsaid = await solander(["divide", paths[0] as string]);
    expect(unsaid.answer).toContain("1. size not known (--sheet-mm or --format says it); ");
    const { width, height, density } = await sharp(written).metadata();
    // 44 × 52 mm at 200 ppi
    expect(Math.abs((width ?? 0) - (44 / 25.4) * 200)).toBeLessThan(2);
    expect(Math.abs((height ?? 0) - (52 / 25.4) * 200)).toBeLessThan(2);
    expect(Math.abs((density ?? 0) - 200)).toBeLessThan(2);
    expect(readFileSync(paths[0] as string)).toEqual(before);
  });

  test("the capture of the same print is found among others, and the same bytes are said to be so", async () => {
    const other = captureSheet({ seed: 8, turnDeg: 1 });
    const stranger = path.join(folder, "stranger.png");
    const copy = path.join(folder, "copy.png");
    writeFileSync(stranger, await codesAsImage(other.picture.codes, other.picture.widthPx, other.picture.heightPx, 3).png().toBuffer());
    copyFileSync(paths[0] as string, copy);
    const { code, answer } = await solander(["match", paths[0] as string, "--among", stranger, paths[1] as string, copy, "--json"]);
    const report = JSON.parse(answer);
    expect(problemsOf("match-report", report)).toEqual([]);
    expect(report).toMatchObject({ sameBytes: [copy], matches: [{ file: paths[1], verdict: "same", quarterTurns: 0 }] });
    expect(report.matches).toHaveLength(1);
    expect(code).toBe(0);
  });

  test("where no file to match can be read, the folder to look in is not read either", async () => {
    const { code, told } = await solander(["match", path.join(folder, "missing.png"), "--among", folder]);
    expect(told).toContain("missing.png");
    expect(told).not.toContain("Reading:");
    expect(code).toBe(1);
  });

  test("a file held against itself is refused, since it can tell no change", async () => {
    const copy = path.join(folder, "copy-of-one.png");
    copyFileSync(paths[0] as string, copy);
    const { code, told } = await solander(["change", paths[0] as string, copy, ...SHEET]);
    expect(told).toContain("one and the same file");
    expect(code).toBe(1);
  });

  test("of a change that cannot be told, every file has its line: one that cannot be read, or both where they do not go together", async () => {
    const linesOf = ({ answer }: { answer: string }) =>
      answer
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line));
    const [one, other] = paths as [string, string];
    const apart = linesOf(await solander(["change", one, other, "--json"]));
    expect(apart.map(({ file }) => file)).toEqual([one, other]);
    for (const line of apart) {
      expect(line.refusal).toMatch(/^They cannot be held against each other: the size of the sheet is not known/);
      expect(problemsOf("change-report", line)).toEqual([]);
    }
    const gone = [path.join(folder, "gone.png"), path.join(folder, "lost.png")] as const;
    const unread = linesOf(await solander(["change", ...gone, ...SHEET, "--json"]));
    expect(unread.map(({ file }) => file)).toEqual(gone);
    expect(linesOf(await solander(["change", one, one, ...SHEET, "--json"]))).toMatchObject([{ file: one }]);
  });

  test("two captures of an unchanged print show no change, as the schema says", async () => {
    const [sharp, soft] = paths as [string, string];
    const { code, answer } = await solander(["change", sharp, soft, ...SHEET, "--method", "flatbed-scanner", "--json"]);
    const report = JSON.parse(answer);
    expect(problemsOf("change-report", report)).toEqual([]);
    expect(code).toBe(0);
    expect(report).toMatchObject({
      older: { file: sharp, capturedAt: null },
      newer: { file: soft },
      structures: { verdict: "within", places: [] },
    });
    expect(new Set(report.numbers.flatMap(({ verdict }: { verdict?: string }) => verdict ?? []))).toEqual(new Set(["within"]));
  });

  test("in words, change by files whose method nobody said is an indication only", async () => {
    const read = await solander(["change", ...paths, ...SHEET]);
    const [, indicated] = read.answer.split("\nIndication only\n");
    expect(indicated).toMatch(/^ {2}Border: lightness +-?0\.\d ± \d+\.\d L\*$/m);
    expect(read.answer).toContain("No new or altered place was found");
  });

  test("in words, changed figures and places are told before what stayed within the uncertainty", async () => {
    const { picture } = captureSheet({ seed: 7, turnDeg: 2 });
    const codes = picture.codes.map((code, at) => (at % 3 === 2 ? code * 0.6 : code)) as typeof picture.codes;
    const yellowed = path.join(folder, "yellowed.png");
    writeFileSync(yellowed, await codesAsImage(codes, picture.widthPx, picture.heightPx, 3).png().toBuffer());
    const { answer } = await solander(["change", paths[0] as string, yellowed, ...SHEET, "--method", "flatbed-scanner"]);
    const at = (words: RegExp) => answer.search(words);
    const inOrder = [
      at(/^Changed beyond the uncertainty\n/m),
      at(/^ {2}Border: yellow stain +\d+\.\d ± \d+\.\d b\*$/m),
      at(/^(No n|N)ew or altered place/m),
      at(/^Within the uncertainty\n/m),
    ];
    expect(inOrder.every((place) => place > 0)).toBe(true);
    expect(inOrder).toEqual(inOrder.toSorted((a, b) => a - b));
  });

  test("change cannot be told without the size of the sheet, and says what to do", async () => {
    const { code, answer, told } = await solander(["change", ...paths]);
    expect(code).toBe(1);
    expect(answer).toBe("");
    expect(told).toMatch(/cannot be held against each other: the size of the sheet is not known.*--sheet-mm or --format/);
  });

  test("what is no picture is refused by name, and the others are measured", async () => {
    const text = path.join(folder, "letter.jpg");
    writeFileSync(text, "Dear aunt");
    const empty = path.join(folder, "nothing.jpg");
    writeFileSync(empty, "");
    const { code, answer, told } = await solander([
      "measure",
      empty,
      text,
      path.join(folder, "none.jpg"),
      paths[0] as string,
      ...SHEET,
      "--json",
    ]);
    expect(code).toBe(1);
    expect(told).toMatch(/none\.jpg: There is no such file/);
    expect(told).toMatch(/nothing\.jpg: The file is empty/);
    expect(told).toMatch(/letter\.jpg: The file is not a picture/);
    const answered = answer
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    for (const each of answered) expect(problemsOf("capture-report", each)).toEqual([]);
    expect(answered.map(({ file }) => file)).toEqual([path.join(folder, "none.jpg"), empty, text, paths[0]]);
    expect(answered[0].refusal).toBe("There is no such file or folder. Check the name and the rights, and try again.");
    expect(answered[1].refusal).toMatch(/^The file is empty/);
    expect(answered[2].refusal).toMatch(/^The file is not a picture/);
    expect(Object.keys(answered[1])).toEqual(["file", "refusal"]);
    expect(answered[3].measures.length).toBeGreaterThan(20);
    // the schema can fail: a file is answered by a report or a refusal, never by neither or both
    expect(problemsOf("capture-report", { file: text })).not.toEqual([]);
    expect(problemsOf("capture-report", { ...answered[3], refusal: "It cannot be read." })).not.toEqual([]);
  });

  test("of captures measured together or matched, one that is refused has its line too", async () => {
    const none = path.join(folder, "none.jpg");
    const together = await solander(["measure", "--together", none, ...paths, ...SHEET, "--json"]);
    expect(
      together.answer
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line).file),
    ).toEqual([none, ...paths]);
    const { code, answer } = await solander(["match", none, "--among", folder, "--json"]);
    expect(code).toBe(1);
    expect(problemsOf("match-report", JSON.parse(answer))).toEqual([]);
    expect(JSON.parse(answer)).toMatchObject({ file: none, refusal: expect.stringMatching(/^There is no such file/) });
  });

  test("of captures chosen among or looked among, one that is refused has its line, and once where it was named twice", async () => {
    const none = path.join(folder, "none.jpg");
    const refusal = { file: none, refusal: expect.stringMatching(/^There is no such file/) };
    const linesOf = ({ answer }: { answer: string }) =>
      answer
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line));
    const chosen = linesOf(await solander(["choose", "--files", none, ...paths, ...SHEET, "--purpose", "screen", "--json"]));
    expect(chosen).toMatchObject([refusal, { purpose: "screen", master: paths[0] }]);
    for (const line of chosen) expect(problemsOf("choice-report", line)).toEqual([]);
    const [even, soft] = paths as [string, string];
    const matched = linesOf(await solander(["match", even, none, "--among", soft, none, "--json"]));
    expect(matched).toMatchObject([{ file: even, matches: [{ file: soft }] }, refusal]);
    for (const line of matched) expect(problemsOf("match-report", line)).toEqual([]);
  });

  test("a folder that nothing can be written into is told before anything is measured", async () => {
    const file = paths[0] as string;
    for (const args of [
      ["measure", file, "--masks", file],
      ["divide", file, "--straightened", path.join(file, "inside")],
    ]) {
      const { code, answer, told } = await solander(args);
      expect([code, answer], args.join(" ")).toEqual([2, ""]);
      expect(told).toMatch(/^Nothing can be written into .*even\.png.* Choose another place\.\n$/);
    }
  });

  test("signs in a file's name that a terminal would obey are not handed to it, and programs get the name as it is", async () => {
    const name = path.join(folder, "two\nlines\u001b[2J.png");
    copyFileSync(paths[0] as string, name);
    const { answer } = await solander(["measure", name]);
    expect(answer.split("\n")[0]).toMatch(/two�lines�\[2J\.png {2}\d+ × \d+ px/);
    const refused = await solander(["measure", `${name}.none`]);
    expect(refused.told).toContain("two�lines�[2J.png.none: There is no such file");
    const chosen = await solander(["choose", "--files", name, paths[1] as string, ...SHEET, "--purpose", "screen"]);
    expect(chosen.answer.split("\n").slice(1, 3).join()).toMatch(/two�lines�\[2J\.png {2}\d+ of 100/);
    expect(chosen.answer).not.toContain("\u001b");
    const json = await solander(["measure", name, "--json"]);
    expect(JSON.parse(json.answer).file).toBe(name);
  });

  test("a name that is no file, and a folder, are refused by every command that asks for one file", async () => {
    const [file, none] = [paths[0] as string, path.join(folder, "no such – file.jpg")];
    for (const args of [
      ["divide", none],
      ["change", none, file],
      ["change", file, none],
      ["divide", path.join(file, "inside.png")],
    ]) {
      const { code, answer, told } = await solander([...args, ...SHEET, "--json"]);
      const line = JSON.parse(answer);
      expect([code, line.file], args.join(" ")).toEqual([1, args.find((each) => !/^(divide|change)$/.test(each) && each !== file)]);
      expect(line.refusal).toMatch(/^There is no such file or folder\. Check the name/);
      expect(problemsOf(args[0] === "divide" ? "bed-report" : "change-report", line)).toEqual([]);
      expect(told).toMatch(/(no such – file\.jpg|inside\.png): There is no such file or folder\. Check the name/);
    }
    const { code, told } = await solander(["divide", folder]);
    expect(code).toBe(1);
    expect(told).toBe(`${folder}: It is a folder. Name a file in it.\n`);
  });

  test.each([
    [["--sheet-mm", "88"], /Give width and height in mm/],
    [["--sheet-mm", "0x90"], /Give width and height in mm/],
    [["--format", "post card"], /There is no such format\. The nearest are: photographic-postcard, .*“formats” lists all \d+/],
    [["--format", "nonsense"], /There is no such format\. “formats” lists all \d+ with their sizes\./],
  ])("%s is refused before anything is read", async (said, words) => {
    const { code, told } = await solander(["measure", paths[0] as string, ...said]);
    expect(code).toBe(2);
    expect(told).toMatch(words);
  });
});
