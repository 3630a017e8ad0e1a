import { existsSync } from "node:fs";
import { converter, differenceCiede2000 } from "culori";
import sharp from "sharp";
import { beforeAll, expect, test } from "vitest";
import { setUpInput } from "#domain/capture/set-up.ts";
import type { Lab } from "#domain/measure/colour/lab.ts";
import { targetLayout } from "#domain/target/layout.ts";
import { listOriginals, listTray } from "#drizzle/queries/captures.ts";
import { historyOf } from "#drizzle/queries/events.ts";
import { checkFor, insertTargetCheck, listTargetChecks } from "#drizzle/queries/target-checks.ts";
import { checkFixity } from "#server/actions/check-fixity.ts";
import { createSetUp } from "#server/actions/create-set-up.ts";
import { createApp } from "#server/app.ts";
import { originalPath } from "#server/collection-folder.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { drawTarget } from "../fixtures/drawn-target.ts";

const words = (html: string) => html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");

const LAYOUT = {
  name: "Small target",
  sheet: { widthMm: 60, heightMm: 40 },
  patches: ["G1", "G2", "G3"].map((id, index) => ({ id, leftMm: 4 + 9 * index, topMm: 14, widthMm: 7, heightMm: 12 })),
  neutrals: ["G1", "G2", "G3"],
  edges: [{ id: "edge-across", leftMm: 38, topMm: 10, widthMm: 18, heightMm: 18 }],
};
const COLOURS = new Map<string, Lab>([
  ["G1", [85, 0, 0]],
  ["G2", [55, 0, 0]],
  ["G3", [30, 0, 0]],
]);
const REFERENCE = `CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n${[...COLOURS].map(([id, lab]) => `${id} ${lab.join(" ")}`).join("\n")}\nEND_DATA\n`;

/** What blue of four fifths its light makes of the greys, by another hand: culori's L*a*b* under D50 and its colour difference. */
function impliedByDimBlue() {
  const [toLab, toLight, difference] = [converter("lab"), converter("lrgb"), differenceCiede2000()];
  const patches = [...COLOURS.values()].map(([l, a, b]) => {
    const { r, g, b: blue } = toLight({ mode: "lab", l, a, b });
    const shown = toLab({ mode: "lrgb", r, g, b: 0.8 * blue });
    const [truth, seen] = [
      { mode: "lab65", l, a, b },
      { ...shown, mode: "lab65" },
    ] as const;
    return { tone: Math.abs(shown.l - l), whiteBalance: Math.hypot(shown.a, shown.b), deltaE: difference(truth, seen) };
  });
  const differences = patches.map(({ deltaE }) => deltaE);
  return {
    tone: Math.max(...patches.map(({ tone }) => tone)).toFixed(1),
    whiteBalance: Math.max(...patches.map(({ whiteBalance }) => whiteBalance)).toFixed(1),
    mean: (differences.reduce((sum, each) => sum + each, 0) / differences.length).toFixed(1),
    worst: Math.max(...differences).toFixed(1),
  };
}

let picture: Uint8Array;
/** Blue a fifth too dark, 10 px/mm = 254 ppi, and a file that says so. */
beforeAll(async () => {
  const { codes, widthPx, heightPx } = drawTarget(targetLayout.parse(LAYOUT), COLOURS, { gain: [1, 1, 0.8] }).picture;
  const raw = { raw: { width: widthPx, height: heightPx, channels: 3 as const } };
  picture = new Uint8Array(await sharp(codes, raw).toColourspace("rgb16").withDensity(254).png().toBuffer());
});

function checking() {
  const context = emptyCollection();
  const app = createApp(context);
  const made = createSetUp(context, setUpInput.parse({ name: "Copy stand", method: "copy-stand-camera" }));
  if (!made.ok) throw new Error("The set-up was refused.");
  const setUpId = made.value.id;
  const post = (files: Record<string, readonly [Uint8Array | string, string]>, fields: Record<string, string> = {}) => {
    const form = new FormData();
    for (const [name, value] of Object.entries(fields)) form.set(name, value);
    for (const [name, [content, fileName]] of Object.entries(files)) form.set(name, new File([content as BlobPart], fileName));
    return app.request(`/set-ups/${setUpId}/checks`, { method: "POST", body: form, headers: { "Sec-Fetch-Site": "same-origin" } });
  };
  const page = async () => words(await (await app.request(`/set-ups/${setUpId}/checks`)).text());
  return { context, app, setUpId, post, page };
}

/** Threads that read pictures start slowly on a busy machine. */
const BUSY_MS = 120_000;

const all = () =>
  ({ layout: [JSON.stringify(LAYOUT), "small.json"], reference: [REFERENCE, "small.txt"], picture: [picture, "target.png"] }) as const;

test("a picture of a target is read and kept with its set-up: in its history, among the originals, no capture", async () => {
  const { context, post, page, setUpId } = checking();
  expect((await post(all(), { takenOn: "2026-03-01", note: "After the new lamps" })).status).toBe(303);
  const [check] = listTargetChecks(context.db, setUpId);
  expect(check).toMatchObject({ takenOn: "2026-03-01", referenceName: "small.txt", note: "After the new lamps" });
  expect(existsSync(originalPath(context.folder, check?.original.sha256 ?? ""))).toBe(true);
  expect(listOriginals(context.db)).toHaveLength(1);
  expect(listTray(context.db)).toHaveLength(0);
  expect((await checkFixity(context)).problems).toEqual([]);
  expect(historyOf(context.db, "set-up", setUpId).map(({ verb }) => verb)).toContain("target checked");
  const shown = await page();
  expect(shown).toContain("1 March 2026: 2 of 11 figures miss what is asked");
  const { tone, whiteBalance, mean, worst } = impliedByDimBlue();
  expect(shown).toContain(`Tone response ${tone} ΔL* at most 4.0 ΔL*: met`);
  expect(shown).toContain(`White balance ${whiteBalance} ΔE(a*b*) at most 4.0 ΔE(a*b*): missed`);
  expect(shown).toContain(`Colour accuracy, mean ${mean} ΔE2000 at most 3.5 ΔE2000: missed`);
  expect(shown).toContain(`Colour accuracy, worst patch ${worst} ΔE* nothing`);
  // drawn with a blur of 0.7 px: √(ln 2 / 2) / (π · 0.7) = 0.268 cycles a pixel, 53.5 % of half the sampling
  expect(shown).toMatch(/SFR 50 % on a target 5[34] % Read across the frame only\. at least 40 %, at most 75 %: met/);
  // the file says the sampling it was drawn with; its sheet is found to about a tenth of its 40 mm
  expect(shown).toMatch(/Scale against a ruler 0\.[0-3] % at most 2\.0 %: met/);
});

test("what cannot be read is refused at its field, nothing is kept, and what was typed stays", async () => {
  const { context, post, setUpId } = checking();
  const cases = [
    [{ ...all(), layout: ["{}", "empty.json"] as const }, "This is no layout of a target"],
    [{ ...all(), reference: ["a,b,c", "list.txt"] as const }, "The file has no table"],
    [{ layout: all().layout, reference: all().reference }, "No picture was chosen."],
    [{ ...all(), picture: ["not a picture", "target.png"] as const }, "The file is not a picture"],
    [{ ...all(), reference: ["x".repeat(600_000), "long.txt"] as const }, "far too long"],
  ] as const;
  for (const [files, said] of cases) {
    const answer = await post(files, { note: "typed in full" });
    expect(answer.status).toBe(422);
    const html = await answer.text();
    expect(words(html)).toContain(said);
    expect(html).toContain("typed in full");
  }
  expect(listTargetChecks(context.db, setUpId)).toEqual([]);
  expect(listOriginals(context.db)).toEqual([]);
});

test(
  "a picture in which the target is not found is kept, says so, and speaks for nothing until somebody sets its corners",
  async () => {
    const { context, post, page, setUpId } = checking();
    const plain = await sharp({ create: { width: 600, height: 400, channels: 3, background: "#808080" } })
      .png()
      .toBuffer();
    // a plain white sheet of the target's proportions shows none of its edges and no tone of its patches
    const sheet = sharp({ create: { width: 600, height: 400, channels: 3, background: "#fdfdfd" } });
    const lying = await sharp(await sheet.png().toBuffer())
      .extend({ top: 60, bottom: 60, left: 60, right: 60, background: "#202020" })
      .png()
      .toBuffer();
    for (const [content, name] of [[plain, "grey.png"] as const, [lying, "sheet.png"] as const]) {
      const answer = await post({ ...all(), picture: [new Uint8Array(content), name] }, { takenOn: "2026-03-01" });
      expect(answer.status).toBe(303);
      expect(answer.headers.get("location")).toMatch(/^\/target-checks\/\d+\/outline$/);
    }
    expect(listTargetChecks(context.db, setUpId).map(({ read }) => read)).toEqual([null, null]);
    expect(checkFor(context.db, setUpId, "2026-05-01")).toBeNull();
    expect(await page()).toContain("Small target, grey.png Not read: the target was not found. Set its corners.");
    expect(await page()).toContain("This set-up was not checked on a target yet");
  },
  BUSY_MS,
);

/** The target on a ground of its own paper's tone, so that no side of it is seen; its corners in the frame. */
async function unseen(): Promise<{ picture: Uint8Array; corners: Record<string, string> }> {
  const bare = sharp(picture).extract({ left: 60, top: 60, width: 600, height: 400 });
  const { data } = await sharp(await bare.clone().extract({ left: 1, top: 1, width: 1, height: 1 }).toBuffer())
    .raw()
    .toBuffer({ resolveWithObject: true });
  const [r = 0, g = 0, b = 0] = data;
  const png = await bare.extend({ top: 80, bottom: 40, left: 50, right: 70, background: { r, g, b } }).withDensity(254).png().toBuffer();
  const corners = { topLeft: [50, 80], topRight: [650, 80], bottomRight: [650, 480], bottomLeft: [50, 480] } as const;
  const typed = Object.entries(corners).flatMap(([corner, [x, y]]) => [
    [`part1-${corner}-x`, String(x - 0.5)],
    [`part1-${corner}-y`, String(y - 0.5)],
  ]);
  return { picture: new Uint8Array(png), corners: Object.fromEntries(typed) };
}

test(
  "a target that is not found is read within the corners that a person types, and wrong corners are refused with them kept",
  async () => {
    const { context, app, post, page, setUpId } = checking();
    const { picture: hidden, corners } = await unseen();
    expect((await post({ ...all(), picture: [hidden, "hidden.png"] }, { takenOn: "2026-03-01" })).status).toBe(303);
    const [check] = listTargetChecks(context.db, setUpId);
    const path = `/target-checks/${check?.id}`;
    const outline = await (await app.request(`${path}/outline`)).text();
    expect(words(outline)).toContain("The target was not found in this picture, so nothing was read yet.");
    for (const picturePath of ["view.jpg", "close-up.jpg?x=50&y=80"])
      expect((await app.request(`${path}/${picturePath}`)).headers.get("content-type")).toBe("image/jpeg");
    const set = (typed: Record<string, string>) =>
      app.request(`${path}/outline`, {
        method: "POST",
        body: new URLSearchParams(typed),
        headers: { "Sec-Fetch-Site": "same-origin" },
      });
    const refusedCorners: [Record<string, string>, string][] = [
      [{ ...corners, "part1-topLeft-x": "left" }, "No number is written for top left across."],
      [{ ...corners, "part1-topLeft-x": "9000" }, "A corner lies outside the picture."],
      // proportions of something else
      [{ ...corners, "part1-topRight-x": "450", "part1-bottomRight-x": "450" }, "With these corners nothing of the target can be read."],
    ];
    for (const [wrong, said] of refusedCorners) {
      const answer = await set(wrong);
      expect(answer.status).toBe(422);
      const html = await answer.text();
      expect(words(html)).toContain(said);
      expect(html).toContain(`value="${wrong["part1-topLeft-x"]}"`);
      // said among the corners, once
      expect(words(html.split("corner-fields")[1] ?? "")).toContain(said);
      expect(html.split(said)).toHaveLength(2);
      const refusedId = `${check?.id}-part1-refused`;
      expect(html).toContain(`id="${refusedId}"`);
      expect(html.split(`<fieldset aria-describedby="${refusedId}"`)).toHaveLength(5);
    }
    expect((await set(corners)).status).toBe(303);
    // this file has 8 bits, which round the worst patch from 8.6 to 8.9 ΔE2000: just past 8.75
    expect(await page()).toContain("1 March 2026: 3 of 11 figures miss what is asked");
    const [read] = listTargetChecks(context.db, setUpId);
    expect(read?.read?.ppi?.x).toBeCloseTo(254, 0);
    // blue a fifth too dark is seen as plainly as where the target was found, but for the rounding
    const cast = read?.read?.readings.find(({ name }) => name === "whiteBalanceDeltaAb");
    expect(Math.abs((cast && "value" in cast ? cast.value : 0) - Number(impliedByDimBlue().whiteBalance))).toBeLessThan(0.6);
    expect(historyOf(context.db, "set-up", setUpId).map(({ verb }) => verb)).toEqual(
      expect.arrayContaining(["target check kept unread", "target check outlined"]),
    );
  },
  BUSY_MS,
);

const greyLightness = (code: number): number => converter("lab")({ mode: "rgb", r: code / 255, g: code / 255, b: code / 255 }).l;

/** Plain grey paper that falls off to one side, filling the frame. */
async function evenSheet(): Promise<Uint8Array> {
  const grey = Buffer.alloc(300 * 200 * 3);
  for (let at = 0; at < grey.length; at++) grey[at] = 215 - Math.round((20 * (Math.floor(at / 3) % 300)) / 300);
  return new Uint8Array(
    await sharp(grey, { raw: { width: 300, height: 200, channels: 3 } })
      .png()
      .toBuffer(),
  );
}

test(
  "a plain sheet tells the evenness of the set-up beside what a target tells, and hides no target behind it",
  async () => {
    const { context, app, post, page, setUpId } = checking();
    await post(all(), { takenOn: "2026-03-01" });
    const sent = async (picture: Uint8Array) => {
      const form = new FormData();
      form.set("takenOn", "2026-04-01");
      form.set("note", "all four lamps");
      form.set("picture", new File([picture as BlobPart], "sheet.png"));
      return app.request(`/set-ups/${setUpId}/even-sheet`, { method: "POST", body: form, headers: { "Sec-Fetch-Site": "same-origin" } });
    };
    const refusedSheet = await sent(picture);
    expect(refusedSheet.status).toBe(422);
    const again = await refusedSheet.text();
    expect(words(again)).toContain("Something else than plain paper is in the picture");
    expect(again).toContain("all four lamps");
    expect(again).toContain('value="2026-04-01"');
    const tiny = await sent(
      new Uint8Array(
        await sharp(await evenSheet())
          .resize(4, 4)
          .png()
          .toBuffer(),
      ),
    );
    expect(tiny.status).toBe(422);
    expect(words(await tiny.text())).toContain("The picture is too small");
    expect((await app.request(`/set-ups/${setUpId}/checks`)).status).toBe(200);
    const [held] = listTargetChecks(context.db, setUpId);
    if (!held?.read) throw new Error("no check was kept");
    const { original, who, id, ...row } = held;
    const broken = { ...held.read, readings: [{ name: "lightnessUniformityPercent" as const, value: Number.NaN }] };
    expect(() => insertTargetCheck(context.db, { ...row, originalId: original.id, read: broken })).toThrow();
    expect((await sent(await evenSheet())).status).toBe(303);
    const shown = await page();
    expect(shown).not.toContain("not checked on a target yet");
    expect(shown).toContain("1 March 2026: 2 of 11 figures miss");
    // codes fall from 215 by 20 across the sheet: L* by culori, deviation over mean of all columns
    const columns = Array.from({ length: 300 }, (_, x) => greyLightness(215 - Math.round((20 * x) / 300)));
    const mean = columns.reduce((sum, each) => sum + each, 0) / 300;
    const deviation = Math.sqrt(columns.reduce((sum, each) => sum + (each - mean) ** 2, 0) / 299);
    const evenness = Number(/Evenness over the field (\d\.\d) %/.exec(shown)?.[1]);
    expect(Math.abs(evenness - (100 * deviation) / mean)).toBeLessThan(0.15);
    expect(shown).toMatch(/Evenness over the field \d\.\d % From the even sheet of 1 April 2026\. Over the whole frame/);
    expect(shown).toContain("1 April 2026: Even sheet, sheet.png. all four lamps");
    const speaking = checkFor(context.db, setUpId, "2026-05-01");
    expect(speaking?.read.readings.find(({ name }) => name === "lightnessUniformityPercent")).toHaveProperty("value");
    expect(speaking?.read.readings.find(({ name }) => name === "whiteBalanceDeltaAb")).toHaveProperty("value");
  },
  BUSY_MS,
);

test(
  "an even sheet alone leaves the set-up unchecked on a target, and says so; its form asks for the picture",
  async () => {
    const { app, page, setUpId } = checking();
    const sent = (form: FormData) =>
      app.request(`/set-ups/${setUpId}/even-sheet`, { method: "POST", body: form, headers: { "Sec-Fetch-Site": "same-origin" } });
    const without = new FormData();
    without.set("note", "all four lamps");
    const refused = await sent(without);
    expect(refused.status).toBe(422);
    expect(words(await refused.text())).toContain("No picture was chosen. Choose the file of the picture.");
    const form = new FormData();
    form.set("picture", new File([(await evenSheet()) as BlobPart], "sheet.png"));
    expect((await sent(form)).status).toBe(303);
    const shown = await page();
    expect(shown).toMatch(/Evenness over the field \d/);
    expect(shown).toContain("This set-up was not checked on a target yet");
  },
  BUSY_MS,
);

test(
  "the check of a capture's day or before speaks for it; a check can be taken out, and its file is kept",
  async () => {
    const { context, app, post, setUpId } = checking();
    await post(all(), { takenOn: "2026-03-01" });
    await post(all(), { takenOn: "2026-06-01" });
    const on = (day: string | null) => checkFor(context.db, setUpId, day)?.takenOn;
    expect([on("2026-05-31"), on("2026-06-01"), on("2025-01-01"), on(null)]).toEqual([
      "2026-03-01",
      "2026-06-01",
      "2026-03-01",
      "2026-03-01",
    ]);
    const [first] = listTargetChecks(context.db, setUpId);
    const out = await app.request(`/target-checks/${first?.id}/take-out`, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" } });
    expect(out.status).toBe(303);
    expect(listTargetChecks(context.db, setUpId)).toHaveLength(1);
    expect(listOriginals(context.db)).toHaveLength(1);
  },
  BUSY_MS,
);

test(
  "a capture made with the set-up shows what its check proves, and one without a check still says what it needs",
  async () => {
    const { context, app, post, setUpId } = checking();
    const print = keptPrint(context.db, "A1");
    const captureId = measuredCapture(context.db, print, GOOD_ENOUGH, { fileName: "a.tif", method: "copy-stand-camera", setUpId });
    const shown = async () => words(await (await app.request(`/captures/${captureId}`)).text());
    expect(await shown()).not.toMatch(/the set-up.{1,6}s check of/);
    await post(all(), { takenOn: "2026-03-01" });
    expect(await shown()).toMatch(/the set-up.{1,6}s check of 1 March 2026.*White balance: 10\.3 ΔE\(a\*b\*\) reaches no level/s);
  },
  BUSY_MS,
);
