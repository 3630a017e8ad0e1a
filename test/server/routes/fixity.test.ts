import { rmSync } from "node:fs";
import { Readable } from "node:stream";
import sharp from "sharp";
import { expect, test } from "vitest";
import { listOriginals } from "#drizzle/queries/captures.ts";
import { latestFixityRun } from "#drizzle/queries/fixity.ts";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { createApp } from "#server/app.ts";
import { originalPath } from "#server/collection-folder.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

async function withOneFile() {
  const context = emptyCollection();
  const png = await sharp({ create: { width: 8, height: 8, channels: 3, background: "red" } })
    .png()
    .toBuffer();
  for (const originalName of ["kite.png", "boat.png"])
    await takeInCapture(context, {
      source: Readable.from([originalName === "kite.png" ? png : await sharp(png).negate().png().toBuffer()]),
      originalName,
    });
  const app = createApp(context);
  const text = async (path: string) => (await app.request(path)).text();
  return { context, app, text };
}

test("a check begun in the browser names the file that is gone, there, on the overview and at its capture", async () => {
  const { context, app, text } = await withOneFile();
  expect(await text("/fixity")).toContain("The files have not been checked since they were taken in.");
  const kite = listOriginals(context.db).find(({ id }) => id === 1);
  rmSync(originalPath(context.folder, kite?.sha256 ?? ""));
  const asked = await app.request("/fixity", { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" } });
  expect(asked.headers.get("location")).toBe("/fixity");
  await expect.poll(() => latestFixityRun(context.db)?.endedAt).toBeTruthy();
  const page = await text("/fixity");
  expect(page).toContain("2 files checked");
  expect(page).toMatch(/kite\.png[\s\S]*Missing: the file is gone/);
  expect(page).not.toContain("boat.png");
  expect(await text("/captures/1")).toContain("A file is damaged");
  expect(await text("/captures/2")).not.toContain("A file is damaged");
  expect(await text("/")).toContain("1 file is not what was taken in.");
});
