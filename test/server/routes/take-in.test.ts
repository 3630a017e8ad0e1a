import type { Hono } from "hono";
import sharp from "sharp";
import { expect, test } from "vitest";
import { setUpInput } from "#domain/capture/set-up.ts";
import { findCapture, listCapturesOfPrint, listTray } from "#drizzle/queries/captures.ts";
import { workProgress } from "#drizzle/queries/work-progress.ts";
import { createSetUp } from "#server/actions/create-set-up.ts";
import { createApp } from "#server/app.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

/** A small JPEG, told from others by its colour. */
const jpeg = async (background: string) =>
  new Uint8Array(
    await sharp({ create: { width: 60, height: 40, channels: 3, background } })
      .jpeg()
      .toBuffer(),
  );

type Files = Record<string, Uint8Array>;

/** The form as the page sends it: words first, then the files; an empty second input sends an empty file. */
function add(app: Hono, words: Record<string, string>, files: Files) {
  const form = new FormData();
  for (const [name, value] of Object.entries({ print: "", side: "front", method: "", setUp: "", ...words })) form.append(name, value);
  for (const [name, bytes] of Object.entries(files)) form.append("files", new File([bytes as Uint8Array<ArrayBuffer>], name));
  form.append("files", new File([], ""));
  return app.request("/add", { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: form });
}

const page = async (answer: Response) => (await answer.text()).replaceAll("<wbr/>", "");

test("a mixed lot: one finds its print by name, one waits in the tray, and one that is no picture stops neither", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  const app = createApp(context);
  const answer = await add(
    app,
    {},
    {
      "notes.txt": new TextEncoder().encode("this is no picture"),
      "1978.001_front.jpg": await jpeg("#884422"),
      "holiday.jpg": await jpeg("#224488"),
      "empty.jpg": new Uint8Array(),
    },
  );
  const html = await page(answer);
  expect(answer.status).toBe(200);
  expect(html).toContain("2 taken in, 2 refused");
  expect(html).toMatch(/<strong>notes\.txt<\/strong> was refused\.<p>[^<]{20,}/);
  expect(html).toMatch(/<strong>empty\.jpg<\/strong> was refused\.<p>[^<]{20,}/);
  expect(listCapturesOfPrint(context.db, printId).map((capture) => capture.original.originalName)).toEqual(["1978.001_front.jpg"]);
  expect(listTray(context.db).map((capture) => capture.original.originalName)).toEqual(["holiday.jpg"]);
  expect(workProgress(context.db).waiting).toBe(2);
});

test("the same bytes a second time are told to be here already, and nothing is stored twice", async () => {
  const context = emptyCollection();
  keptPrint(context.db, "1978.001");
  const app = createApp(context);
  const bytes = await jpeg("#884422");
  await add(app, {}, { "1978.001.jpg": bytes });
  const html = await page(await add(app, {}, { "copy of it.jpg": bytes }));
  expect(html).toContain("0 taken in, 1 already here");
  expect(html).toContain("taken in as “1978.001.jpg”; it is not stored twice");
  expect(context.db.$client.prepare("select count(*) from originals").pluck().get()).toBe(1);
});

test("print, side, method and set-up said in the form hold for every file", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  const made = createSetUp(context, setUpInput.parse({ name: "Stand", method: "copy-stand-camera" }));
  if (!made.ok) throw new Error("refused");
  const words = { print: "1978.001", side: "back", setUp: String(made.value.id) };
  await add(createApp(context), words, { "a.jpg": await jpeg("#112233"), "b.jpg": await jpeg("#332211") });
  const kept = listCapturesOfPrint(context.db, printId);
  expect(kept).toHaveLength(2);
  for (const capture of kept)
    expect(capture).toMatchObject({ side: "back", method: "copy-stand-camera", methodBasis: "said", setUpId: made.value.id });
});

test("a number that is not there is told at its field, and the files, kept in the tray, find their print when added with the right one", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  const answer = await add(createApp(context), { print: "1999.999" }, { "a.jpg": await jpeg("#112233") });
  const html = await page(answer);
  expect(answer.status).toBe(422);
  expect(html).toContain("There is no print with the number 1999.999.");
  expect(html).toContain("The files below are here, but not all that you said could be used.");
  expect(html).not.toContain("Not saved yet");
  expect(html).toContain('value="1999.999"');
  expect(listTray(context.db)).toHaveLength(1);
  await add(createApp(context), { print: "1978.001" }, { "a.jpg": await jpeg("#112233") });
  expect(listCapturesOfPrint(context.db, printId)).toHaveLength(1);
});

test("a form without any file says so and keeps what was typed", async () => {
  const answer = await add(createApp(emptyCollection()), { print: "", side: "back" }, {});
  const html = await page(answer);
  expect(answer.status).toBe(422);
  expect(html).toContain("No file was chosen.");
  expect(html).toContain("No file was taken in.");
  expect(html).toMatch(/<option value="back" selected="">/);
});

test("a file name is shown as it is, never taken for markup or for a path", async () => {
  const context = emptyCollection();
  const html = await page(await add(createApp(context), {}, { "<img src=x onerror=alert(1)>.jpg": await jpeg("#112233") }));
  expect(html).not.toContain("<img src=x");
  expect(findCapture(context.db, 1)?.original.originalName).toBe("<img src=x onerror=alert(1)>.jpg");
});

test("the form that brings files is open to this site alone", async () => {
  const form = new FormData();
  form.append("files", new File([await jpeg("#112233")], "a.jpg"));
  const context = emptyCollection();
  const headers = { "Sec-Fetch-Site": "cross-site", Origin: "https://elsewhere.example" };
  expect((await createApp(context).request("/add", { method: "POST", headers, body: form })).status).toBe(403);
  expect(listTray(context.db)).toEqual([]);
});
