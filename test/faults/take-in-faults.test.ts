import { readdirSync, readFileSync } from "node:fs";
import files, { type FileHandle } from "node:fs/promises";
import { syncBuiltinESMExports } from "node:module";
import path from "node:path";
import { Readable } from "node:stream";
import sharp from "sharp";
import { afterAll, beforeAll, expect, onTestFinished, test } from "vitest";
import { listOriginals, listTray } from "#drizzle/queries/captures.ts";
import { workProgress } from "#drizzle/queries/work-progress.ts";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { originalPath } from "#server/collection-folder.ts";
import type { Context } from "#server/context.ts";
import { emptyCollection } from "../fixtures/collection.ts";

/**
 * The disk fails at the first, the second, the third … call of taking a capture in, until it passes
 * untouched. After each, there is the whole capture or none (after sqlite's test/alterfault.test).
 */
const fault = { countdown: Number.POSITIVE_INFINITY, code: "EIO" };
const real = { ...files };

const failing = <F extends (...args: never[]) => unknown>(call: F): F =>
  ((...args: Parameters<F>) => {
    fault.countdown--;
    if (fault.countdown === 0) return Promise.reject(Object.assign(new Error("the disk failed"), { code: fault.code }));
    return call(...args);
  }) as F;

const failingHandle = (handle: FileHandle) =>
  new Proxy(handle, {
    get: (target, name) => {
      const member = Reflect.get(target, name);
      if (typeof member !== "function") return member;
      return ["writeFile", "sync", "read"].includes(String(name)) ? failing(member.bind(target)) : member.bind(target);
    },
  });

beforeAll(() => {
  const open = failing(async (...args: Parameters<typeof real.open>) => failingHandle(await real.open(...args)));
  Object.assign(files, { open, mkdir: failing(real.mkdir), rename: failing(real.rename) });
  syncBuiltinESMExports();
});

afterAll(() => {
  Object.assign(files, real);
  syncBuiltinESMExports();
});

async function takeInWithFault(context: Context, bytes: Buffer, call: number, code: string) {
  fault.countdown = call;
  fault.code = code;
  const taken = await takeInCapture(context, { source: Readable.from([bytes]), originalName: "a.tif" }).catch(() => null);
  const wasReached = fault.countdown <= 0;
  fault.countdown = Number.POSITIVE_INFINITY;
  return { taken, wasReached };
}

test.each(["EIO", "ENOSPC"])("%s at any call of the disk leaves the whole capture or none", async (code) => {
  onTestFinished(() => {
    fault.countdown = Number.POSITIVE_INFINITY;
  });
  const bytes = await sharp({ create: { width: 20, height: 10, channels: 3, background: "#a05020" } })
    .tiff({ compression: "lzw" })
    .toBuffer();
  const told: string[] = [];
  let call = 1;
  for (; ; call++) {
    const context = emptyCollection();
    const { taken, wasReached } = await takeInWithFault(context, bytes, call, code);
    const isTaken = taken?.ok === true;
    expect(listOriginals(context.db).length).toBe(isTaken ? 1 : 0);
    expect(listTray(context.db).length).toBe(isTaken ? 1 : 0);
    expect(workProgress(context.db).waiting).toBe(isTaken ? 1 : 0);
    expect(readdirSync(context.folder.incoming)).toEqual([]);
    for (const { sha256 } of listOriginals(context.db)) expect(readFileSync(originalPath(context.folder, sha256))).toEqual(bytes);
    if (taken && !taken.ok) told.push(taken.refusals[0]?.happened ?? "");
    // nothing stands in the way of another try
    const again = await takeInWithFault(context, bytes, Number.POSITIVE_INFINITY, code);
    expect(again.taken).toMatchObject({ ok: true, value: { alreadyHeld: isTaken } });
    expect(listOriginals(context.db)).toHaveLength(1);
    const kept = readdirSync(context.folder.captures, { recursive: true, withFileTypes: true }).filter((each) => each.isFile());
    expect(kept.map((each) => path.join(each.parentPath, each.name))).toEqual([
      originalPath(context.folder, listOriginals(context.db)[0]?.sha256 ?? ""),
    ]);
    if (!wasReached) break;
  }
  // the premise: the calls that copy, confirm, name and look were all reached
  expect(call).toBeGreaterThan(10);
  if (code === "ENOSPC") expect(told).toContainEqual(expect.stringContaining("The disk is full"));
});

test("a disk that fills up while a record is written refuses the file in words, and it is taken in once there is room", async () => {
  const context = emptyCollection();
  const { $client } = context.db;
  $client.pragma(`max_page_count = ${$client.pragma("page_count", { simple: true })}`);
  const takeIn = async (level: number) =>
    takeInCapture(context, {
      source: Readable.from([
        await sharp({ create: { width: 2, height: 2, channels: 3, background: { r: level, g: 0, b: 0 } } })
          .png()
          .toBuffer(),
      ]),
      originalName: `${level}-${"x".repeat(190)}.png`,
    });
  let level = 0;
  let taken = await takeIn(level);
  while (taken.ok && level < 100) taken = await takeIn(++level);
  expect(taken).toMatchObject({ ok: false, refusals: [{ happened: expect.stringContaining("The disk is full") }] });
  expect(listOriginals(context.db)).toHaveLength(level);
  expect(workProgress(context.db).waiting).toBe(level);
  expect(readdirSync(context.folder.incoming)).toEqual([]);
  $client.pragma("max_page_count = 1000000");
  expect(await takeIn(level)).toMatchObject({ ok: true, value: { alreadyHeld: false } });
  expect(listOriginals(context.db)).toHaveLength(level + 1);
});
