import { spawnSync } from "node:child_process";
import { randomUUID } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import { expect, onTestFinished, test, vi } from "vitest";
import { findPrint } from "#drizzle/queries/prints.ts";
import { keptLaidSide, layingEnded, laySideOfPrint } from "#server/actions/lay-side-of-print.ts";
import { createApp } from "#server/app.ts";
import type { Context } from "#server/context.ts";
import { openCollection } from "#server/open-collection.ts";
import { keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { SMALL } from "../../fixtures/captured-sheet.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { drawCapture, keepCapture } from "../../fixtures/laid-captures.ts";

const laidIn = (context: Context) => path.join(context.folder.derived, "laid");

test("what was cut when the machine went down counts as not laid", async () => {
  const folder = path.join(emptyCollection().folder.derived, "cut");
  mkdirSync(folder);
  writeFileSync(path.join(folder, "laid.json"), '{"sheetMm":{"widthMm":90,"hei');
  expect(await keptLaidSide(folder)).toBeNull();
});

test("a refusal is forgotten when that is asked for, of that side alone, and never by looking", { timeout: 60_000 }, async () => {
  const context = emptyCollection();
  const app = createApp(context);
  const [one, other] = ["1978.001", "1978.002"].map((objectNumber) => {
    const printId = keptPrint(context.db, objectNumber);
    for (const fileName of ["a.tif", "b.tif"]) measuredCapture(context.db, printId, {}, { fileName });
    return `/prints/${printId}/compare`;
  }) as [string, string];
  const get = async (address: string) => (await app.request(address)).text();
  const isRefused = async (address: string) => (await get(address)).includes("These captures cannot be laid on each other");
  for (const address of [one, other]) await get(address);
  await layingEnded();
  for (const address of [one, other, `${one}?again=1`, one]) expect(await isRefused(address), address).toBe(true);
  expect(await get(one)).toContain(`<form class="actions" method="post" action="${one}/again">`);

  const asked = await app.request(`${one}/again`, {
    method: "POST",
    headers: { "Sec-Fetch-Site": "same-origin" },
    body: new URLSearchParams({ side: "front" }),
  });
  expect([asked.status, asked.headers.get("location")]).toEqual([303, `${one}?side=front`]);
  expect(await isRefused(other)).toBe(true);
  expect(await isRefused(one)).toBe(false);
  await layingEnded();
});

test("closing the collection ends what is being laid and leaves nothing; a side may take as long as its files do", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.003", { sheetWidthMm: SMALL.widthMm, sheetHeightMm: SMALL.heightMm });
  for (const ppi of [110, 90]) await keepCapture(context, printId, drawCapture({ seed: 63, noiseSeed: ppi, ppi }), `${ppi}.png`);
  const print = findPrint(context.db, printId);
  if (!print) throw new Error("no print");
  const timers = vi.spyOn(globalThis, "setTimeout");
  onTestFinished(() => void timers.mockRestore());
  const closing = new AbortController();
  await laySideOfPrint({ ...context, ending: closing.signal }, print, "front");
  await vi.waitFor(() => expect(existsSync(laidIn(context)) && readdirSync(laidIn(context))).toHaveLength(1), {
    timeout: 60_000,
    interval: 5,
  });
  expect(timers.mock.calls.map(([, ms]) => ms)).toContain(2 * 300_000);
  closing.abort();
  await layingEnded();
  expect(readdirSync(laidIn(context))).toEqual([]);
  // it is no refusal: opened again, it is laid
  expect(await laySideOfPrint(context, print, "front")).toEqual({ done: 0, of: 2 });
  await layingEnded();
  expect(await laySideOfPrint(context, print, "front")).toHaveProperty("laid");
}, 120_000);

test("opening the collection takes away what a process that is no more had half laid", () => {
  const context = emptyCollection();
  const { pid } = spawnSync(process.execPath, ["--version"]);
  const laid = `7-front-${"a".repeat(32)}`;
  const names = [laid, `${laid}.${pid}-${randomUUID()}`, `${laid}.${process.pid}-${randomUUID()}`];
  for (const name of names) mkdirSync(path.join(laidIn(context), name), { recursive: true });
  openCollection(context.folder.root).close();
  expect(readdirSync(laidIn(context)).sort()).toEqual([names[0], names[2]].sort());
});
