import { writeFileSync } from "node:fs";
import path from "node:path";
import { Readable } from "node:stream";
import type { Hono } from "hono";
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { setUpInput } from "#domain/capture/set-up.ts";
import { arrangementInput } from "#domain/plan/arrangement.ts";
import { findCapture, listCapturesOfPrint, listTray } from "#drizzle/queries/captures.ts";
import { historyOf, historyOfPrint } from "#drizzle/queries/events.ts";
import { setArrangement } from "#drizzle/queries/set-ups.ts";
import { createSetUp } from "#server/actions/create-set-up.ts";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { createApp } from "#server/app.ts";
import type { Context } from "#server/context.ts";
import { openCollection } from "#server/open-collection.ts";
import { keptPrint, measuredCapture } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { emptyFolder, solander } from "./cli/command-line.ts";

/** An integral print of which nobody recorded when it was developed: nothing may lie on it. */
const FRESH = { processId: "integral-instant-colour" };

const grey = async (level: number) =>
  new Uint8Array(
    await sharp({ create: { width: 60, height: 40, channels: 3, background: { r: level, g: level, b: level } } })
      .jpeg()
      .toBuffer(),
  );

const SAME_SITE = { "Sec-Fetch-Site": "same-origin" };

function add(app: Hono, words: Record<string, string>, files: Record<string, Uint8Array>) {
  const form = new FormData();
  for (const [name, value] of Object.entries({ print: "", side: "", method: "", setUp: "", ...words })) form.append(name, value);
  for (const [name, bytes] of Object.entries(files)) form.append("files", new File([bytes as Uint8Array<ArrayBuffer>], name));
  return app.request("/add", { method: "POST", headers: SAME_SITE, body: form });
}

const send = (app: Hono, address: string, fields: Record<string, string>) =>
  app.request(address, { method: "POST", headers: SAME_SITE, body: new URLSearchParams(fields) });

const overruled = (context: Context, printId: number) =>
  historyOfPrint(context.db, printId).filter(({ verb }) => verb === "caution overruled");

describe("captures added with a method that a caution forbids", () => {
  test("come in and stay, without the method, and the page says stop in words", async () => {
    const context = emptyCollection();
    const printId = keptPrint(context.db, "1978.001", FRESH);
    const words = { print: "1978.001", side: "back", method: "flatbed-scanner" };
    const answer = await add(createApp(context), words, { "a.jpg": await grey(90), "b.jpg": await grey(120) });
    const html = await answer.text();
    expect(answer.status).toBe(422);
    expect(html).toContain("Stop: 1978.001 must not meet a flatbed scanner");
    expect(html).toContain("Fresh integral print: still wet inside");
    expect(html).toContain("Nothing forbids a phone camera or a camera on copy stand.");
    expect(html).toMatch(/<option value="back" selected="">/);
    expect(html).toMatch(/<option value="flatbed-scanner" selected="">/);
    const kept = listCapturesOfPrint(context.db, printId);
    expect(kept.map(({ name, side, method }) => [name, side, method])).toEqual([
      ["a.jpg", "back", null],
      ["b.jpg", "back", null],
    ]);
    expect(html).toContain(`name="captures" value="${kept.map(({ id }) => id).join(",")}"`);
    expect(overruled(context, printId)).toEqual([]);
  });

  test("are stopped by the print that a file's name tells, and the others of the lot are not", async () => {
    const context = emptyCollection();
    const fresh = keptPrint(context.db, "1978.001", FRESH);
    const sound = keptPrint(context.db, "1978.002", { processId: "chromogenic" });
    const files = { "1978.001.jpg": await grey(90), "1978.002.jpg": await grey(120), "stray.jpg": await grey(150) };
    await add(createApp(context), { method: "flatbed-scanner" }, files);
    expect(listCapturesOfPrint(context.db, fresh)[0]?.method).toBe(null);
    expect(listCapturesOfPrint(context.db, sound)[0]?.method).toBe("flatbed-scanner");
    expect(listTray(context.db)[0]?.method).toBe("flatbed-scanner");
  });

  test("are recorded with a reason given at once, which the history keeps with who, when, method and caution", async () => {
    const context = emptyCollection();
    const printId = keptPrint(context.db, "1978.001", FRESH);
    const words = { print: "1978.001", method: "flatbed-scanner", despite: " It is from 1975, only nobody wrote it down. " };
    const answer = await add(createApp(context), words, { "a.jpg": await grey(90) });
    expect(answer.status).toBe(200);
    const [capture] = listCapturesOfPrint(context.db, printId);
    expect(capture).toMatchObject({ method: "flatbed-scanner", methodBasis: "said" });
    expect(overruled(context, printId)).toMatchObject([
      {
        who: expect.any(String),
        at: expect.stringMatching(/^\d{4}-\d\d-\d\dT/),
        subjectId: capture?.id,
        detail: {
          method: "flatbed-scanner",
          caution: "fresh-integral",
          reason: "It is from 1975, only nobody wrote it down.",
          fileName: "a.jpg",
        },
      },
    ]);
    const page = await (await createApp(context).request(`/captures/${capture?.id}`)).text();
    expect(page).toContain("although a caution forbids it (Fresh integral print: still wet inside)");
    expect(page).toContain("It is from 1975, only nobody wrote it down.");
  });

  test("get their method and set-up afterwards by the reason typed under the stop, without being sent again", async () => {
    const context = emptyCollection();
    const app = createApp(context);
    const printId = keptPrint(context.db, "1978.001", FRESH);
    const made = createSetUp(context, setUpInput.parse({ name: "Bed", method: "flatbed-scanner" }));
    if (!made.ok) throw new Error("refused");
    const setUp = String(made.value.id);
    await add(app, { print: "1978.001", setUp }, { "a.jpg": await grey(90) });
    const [waiting] = listCapturesOfPrint(context.db, printId);
    expect(waiting).toMatchObject({ method: null, setUpId: null });
    const form = { captures: String(waiting?.id), method: "flatbed-scanner", setUp };
    const blank = await send(app, "/add/despite", { ...form, despite: "  " });
    expect(blank.status).toBe(422);
    expect(await blank.text()).toMatch(/No reason was given\.[\s\S]*a\.jpg|a\.jpg[\s\S]*No reason was given\./);
    const answer = await send(app, "/add/despite", { ...form, despite: "Done in 2009." });
    expect(answer.headers.get("location")).toBe(`/prints/${printId}?done=caution-overruled`);
    expect(findCapture(context.db, waiting?.id ?? 0)).toMatchObject({
      method: "flatbed-scanner",
      methodBasis: "said",
      setUpId: made.value.id,
    });
    expect(overruled(context, printId)).toHaveLength(1);
  });

  test("are stopped by the glass of a set-up, though its method touches nothing, and are not by the same set-up without", async () => {
    const context = emptyCollection();
    const app = createApp(context);
    const printId = keptPrint(context.db, "1978.001", FRESH);
    const figures = { sensorWidthMm: "36", sensorHeightMm: "24", sensorWidthPx: "6000", sensorHeightPx: "4000", focalLengthMm: "60" };
    const stand = (name: string, glass: string) => {
      const made = createSetUp(context, setUpInput.parse({ name, method: "copy-stand-camera" }));
      if (!made.ok) throw new Error("refused");
      setArrangement(context.db, made.value.id, arrangementInput.parse({ ...figures, glass }));
      return String(made.value.id);
    };
    const [open, under] = [stand("Open", "none"), stand("Under glass", "plain")];
    const plain = await add(app, { print: "1978.001", setUp: open }, { "a.jpg": await grey(90) });
    expect(plain.status).toBe(200);
    const stopped = await (await add(app, { print: "1978.001", setUp: under }, { "b.jpg": await grey(120) })).text();
    expect(stopped).toContain("Stop: 1978.001 must not meet a camera on copy stand with glass over the print");
    expect(stopped).toContain("Nothing forbids a phone camera or a camera on copy stand, without glass.");
    const waiting = listCapturesOfPrint(context.db, printId).find(({ name }) => name === "b.jpg");
    const form = { captures: String(waiting?.id), method: "copy-stand-camera", setUp: under, despite: "Flat and dry since 1975." };
    expect((await send(app, "/add/despite", form)).status).toBe(303);
    expect(findCapture(context.db, waiting?.id ?? 0)).toMatchObject({ method: "copy-stand-camera", setUpId: Number(under) });
    const page = await (await app.request(`/captures/${waiting?.id}`)).text();
    expect(page).toContain("made with a camera on copy stand and glass over the print, although a caution forbids it");
    const first = listCapturesOfPrint(context.db, printId).find(({ name }) => name === "a.jpg");
    const changed = await send(app, `/captures/${first?.id}`, {
      print: "1978.001",
      side: "front",
      method: "copy-stand-camera",
      setUp: under,
    });
    expect(changed.status).toBe(422);
    expect(await changed.text()).toContain("with glass over the print");
  });

  test("of several prints keep their forms until each has its reason", async () => {
    const context = emptyCollection();
    const app = createApp(context);
    const [one, two] = ["1978.001", "1978.002"].map((number) => keptPrint(context.db, number, FRESH)) as [number, number];
    const files = { "1978.001.jpg": await grey(90), "1978.002.jpg": await grey(120) };
    const formOf = (html: string, printId: number) => {
      const form = html.split("<form").find((part) => part.includes(`despite-${printId}`)) ?? "";
      const value = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(form)?.[1] ?? "";
      return { captures: value("captures"), waiting: value("waiting"), method: value("method"), setUp: value("setUp") };
    };
    const first = formOf(await (await add(app, { method: "flatbed-scanner" }, files)).text(), one);
    const blank = await (await send(app, "/add/despite", { ...first, despite: "" })).text();
    expect(formOf(blank, two).captures).not.toBe("");
    const answer = await send(app, "/add/despite", { ...first, despite: "Done in 2009." });
    expect(answer.status).toBe(200);
    const html = await answer.text();
    expect(html).toContain("your reason stands in the history");
    expect(html).toContain("Stop: 1978.002 must not meet");
    expect(html).not.toContain("Stop: 1978.001 must not meet");
    const last = await send(app, "/add/despite", { ...formOf(html, two), despite: "By a shop." });
    expect(last.headers.get("location")).toBe(`/prints/${two}?done=caution-overruled`);
    for (const printId of [one, two]) expect(listCapturesOfPrint(context.db, printId)[0]?.method).toBe("flatbed-scanner");
  });

  test("get their method all or none, and a form sent again writes no second reason", async () => {
    const context = emptyCollection();
    const app = createApp(context);
    const printId = keptPrint(context.db, "1978.001", FRESH);
    await add(app, { print: "1978.001", method: "flatbed-scanner" }, { "a.jpg": await grey(90), "b.jpg": await grey(120) });
    const [a, b] = listCapturesOfPrint(context.db, printId).map(({ id }) => id) as [number, number];
    const binned = keptPrint(context.db, "1978.002", { ...FRESH, binnedAt: "2026-01-01T00:00:00.000Z" });
    const gone = measuredCapture(context.db, binned, {});
    const form = { method: "flatbed-scanner", setUp: "", despite: "Done in 2009." };
    const refused = await send(app, "/add/despite", { ...form, captures: `${a},${b},${gone}` });
    expect(refused.status).toBe(422);
    expect([a, b].map((id) => findCapture(context.db, id)?.method)).toEqual([null, null]);
    expect(overruled(context, printId)).toEqual([]);
    for (let time = 0; time < 2; time++) await send(app, "/add/despite", { ...form, captures: `${a},${b}` });
    expect([a, b].map((id) => findCapture(context.db, id)?.method)).toEqual(["flatbed-scanner", "flatbed-scanner"]);
    expect(overruled(context, printId)).toHaveLength(2);
  });

  test("need no reason where no caution forbids the method, and an idle reason is not kept as one", async () => {
    const context = emptyCollection();
    const printId = keptPrint(context.db, "1978.001", { ...FRESH, processedOn: "1978" });
    const answer = await add(
      createApp(context),
      { print: "1978.001", method: "flatbed-scanner", despite: "why not" },
      { "a.jpg": await grey(9) },
    );
    expect(answer.status).toBe(200);
    expect(listCapturesOfPrint(context.db, printId)[0]?.method).toBe("flatbed-scanner");
    expect(overruled(context, printId)).toEqual([]);
  });

  test("a print named in the address says beforehand which methods it is kept from", async () => {
    const context = emptyCollection();
    keptPrint(context.db, "1978.001", FRESH);
    keptPrint(context.db, "1978.002", { processId: "chromogenic" });
    const shown = async (number: string) => (await createApp(context).request(`/add?print=${number}`)).text();
    expect(await shown("1978.001")).toMatch(/Not with a sheet-fed scanner or a flatbed scanner: Fresh integral print/);
    expect(await shown("1978.002")).not.toContain("Not with a");
  });
});

describe("a method chosen for a capture that is here", () => {
  const form = { print: "1978.001", side: "front", setUp: "" };

  test("is stopped with what was typed, and recorded once a reason is given", async () => {
    const context = emptyCollection();
    const app = createApp(context);
    const printId = keptPrint(context.db, "1978.001", FRESH);
    const captureId = measuredCapture(context.db, printId, {}, { fileName: "old.tif" });
    const stopped = await send(app, `/captures/${captureId}`, { ...form, side: "back", method: "sheet-fed-scanner" });
    const html = await stopped.text();
    expect(stopped.status).toBe(422);
    expect(html).toContain("Stop: 1978.001 must not meet a sheet-fed scanner");
    expect(html).toMatch(/<option value="back" selected="">/);
    expect(html).toMatch(/<option value="sheet-fed-scanner" selected="">/);
    expect(findCapture(context.db, captureId)).toMatchObject({ method: null, side: "front" });
    const saved = await send(app, `/captures/${captureId}`, { ...form, method: "sheet-fed-scanner", despite: "By a shop, in 1999." });
    expect(saved.status).toBe(303);
    expect(findCapture(context.db, captureId)).toMatchObject({ method: "sheet-fed-scanner", methodBasis: "said" });
    expect(historyOf(context.db, "capture", captureId)[0]?.detail).toMatchObject({ reason: "By a shop, in 1999." });
  });

  test("is not asked about again when something else of that capture is corrected", async () => {
    const context = emptyCollection();
    const printId = keptPrint(context.db, "1978.001", FRESH);
    const captureId = measuredCapture(context.db, printId, {}, { method: "flatbed-scanner" });
    const saved = await send(createApp(context), `/captures/${captureId}`, { ...form, side: "back", method: "flatbed-scanner" });
    expect(saved.status).toBe(303);
    expect(findCapture(context.db, captureId)?.side).toBe("back");
  });

  test("does not keep a capture that is made already from being told its print", async () => {
    const context = emptyCollection();
    const printId = keptPrint(context.db, "1978.001", FRESH);
    const captureId = measuredCapture(context.db, null, {}, { method: "flatbed-scanner" });
    await send(createApp(context), `/captures/${captureId}/print`, { print: "1978.001", side: "front" });
    expect(findCapture(context.db, captureId)).toMatchObject({ printId, method: "flatbed-scanner" });
  });
});

describe("on the command line", () => {
  async function scan() {
    const file = path.join(emptyFolder(), "scan.jpg");
    writeFileSync(file, await grey(70));
    const collection = emptyFolder();
    const context = openCollection(collection);
    keptPrint(context.db, "1978.001", FRESH);
    context.close();
    return { collection, args: ["add", file, "--collection", collection, "--print", "1978.001", "--method", "flatbed-scanner"] };
  }

  test("a forbidden method is refused in words, and nothing is taken in", async () => {
    const { collection, args } = await scan();
    const { code, answer } = await solander(args);
    expect(code).toBe(1);
    expect(answer).toContain("Print 1978.001 must not meet a flatbed scanner: Fresh integral print: still wet inside.");
    expect(answer).toContain('Here it is said with --despite "REASON".');
    const context = openCollection(collection);
    expect(context.db.$client.prepare("select count(*) from originals").pluck().get()).toBe(0);
    context.close();
  });

  test("--despite takes it in and keeps the reason; a blank one does not", async () => {
    const { collection, args } = await scan();
    expect((await solander([...args, "--despite", "  "])).code).toBe(1);
    expect((await solander([...args, "--despite", "Made in 2009"])).code).toBe(0);
    const context = openCollection(collection);
    expect(overruled(context, 1)).toMatchObject([{ detail: { reason: "Made in 2009" } }]);
    context.close();
  });
});

test("taking in with a forbidden method and no reason writes nothing down", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001", FRESH);
  const taken = await takeInCapture(context, {
    source: Readable.from([await grey(70)]),
    originalName: "a.jpg",
    printId,
    method: "flatbed-scanner",
  });
  expect(taken).toMatchObject({ ok: false, refusals: [{ about: "despite" }] });
  expect(listTray(context.db)).toEqual([]);
});
