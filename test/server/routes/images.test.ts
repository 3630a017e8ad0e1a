import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import sharp from "sharp";
import { expect, test } from "vitest";
import { insertCapture } from "#drizzle/queries/captures.ts";
import { createApp } from "#server/app.ts";
import { derivedPath, originalPath } from "#server/collection-folder.ts";
import { measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

/** A capture whose original lies in the collection: 900 × 600, the right half red, the left half white. */
async function keptCapture(fileName = "scan.png", bytes?: Buffer) {
  const context = emptyCollection();
  const red = await sharp({ create: { width: 450, height: 600, channels: 3, background: "#ff0000" } })
    .png()
    .toBuffer();
  const picture =
    bytes ??
    (await sharp({ create: { width: 900, height: 600, channels: 3, background: "#ffffff" } })
      .composite([{ input: red, left: 450, top: 0 }])
      .png()
      .toBuffer());
  const sha256 = createHash("sha256").update(picture).digest("hex");
  const file = originalPath(context.folder, sha256);
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(file, picture);
  const captureId = measuredCapture(
    context.db,
    null,
    {},
    { fileName, sha256, kind: "png", bytes: picture.length, widthPx: 900, heightPx: 600 },
  );
  return { context, app: createApp(context), captureId, picture };
}

test("a thumbnail is made when it is first asked for, keeps the proportions, and stays", async () => {
  const { context, app, captureId } = await keptCapture();
  const answer = await app.request(`/captures/${captureId}/thumbnail.jpg`);
  expect(answer.headers.get("content-type")).toBe("image/jpeg");
  const made = await sharp(Buffer.from(await answer.arrayBuffer())).metadata();
  expect(made).toMatchObject({ format: "jpeg", width: 400, height: 267 });
  expect(readFileSync(derivedPath(context.folder, captureId, "thumbnail.jpg")).length).toBeGreaterThan(100);
});

test("a part of a bed shows that part and nothing else", async () => {
  const { context, app, captureId } = await keptCapture();
  const whole = context.db.$client.prepare("select original_id as id from captures where id = ?").get(captureId) as { id: number };
  const part = insertCapture(context.db, { originalId: whole.id, region: { left: 600, top: 100, width: 200, height: 300 } });
  const bytes = Buffer.from(await (await app.request(`/captures/${part.id}/view.jpg`)).arrayBuffer());
  expect(await sharp(bytes).metadata()).toMatchObject({ width: 200, height: 300 });
  const { channels } = await sharp(bytes).stats();
  expect(channels[0]?.mean).toBeGreaterThan(245);
  expect(channels[1]?.mean).toBeLessThan(10);
});

test("many askers at once get one and the same picture", async () => {
  const { app, captureId } = await keptCapture();
  const answers = await Promise.all(Array.from({ length: 8 }, () => app.request(`/captures/${captureId}/view.jpg`)));
  const sizes = await Promise.all(answers.map(async (answer) => (await answer.arrayBuffer()).byteLength));
  expect(new Set(answers.map((answer) => answer.status))).toEqual(new Set([200]));
  expect(new Set(sizes).size).toBe(1);
});

test("a picture that has not changed is not sent again", async () => {
  const { app, captureId } = await keptCapture();
  const first = await app.request(`/captures/${captureId}/view.jpg`);
  const tag = first.headers.get("etag") ?? "";
  await first.arrayBuffer();
  const again = await app.request(`/captures/${captureId}/view.jpg`, { headers: { "If-None-Match": tag } });
  expect(again.status).toBe(304);
});

test("the original comes back byte for byte, as a download under a name that cannot break out of its header", async () => {
  const { app, captureId, picture } = await keptCapture('Größe "1"\r\nX-Evil: yes.png');
  const answer = await app.request(`/captures/${captureId}/original`);
  expect(Buffer.from(await answer.arrayBuffer()).equals(picture)).toBe(true);
  expect(answer.headers.get("x-evil")).toBe(null);
  expect(answer.headers.get("content-disposition")).toMatch(/^attachment; filename="/);
  expect(answer.headers.get("content-disposition")).toContain("filename*=UTF-8''Gr%C3%B6%C3%9Fe");
  expect(answer.headers.get("x-content-type-options")).toBe("nosniff");
  expect(answer.headers.get("content-length")).toBe(String(picture.length));
});

test("a capture whose bytes are no picture, and one that does not exist, have no thumbnail", async () => {
  const { app, captureId } = await keptCapture("broken.png", Buffer.from("no picture at all"));
  expect((await app.request(`/captures/${captureId}/thumbnail.jpg`)).status).toBe(404);
  expect((await app.request("/captures/4711/thumbnail.jpg")).status).toBe(404);
  expect((await app.request("/captures/4711/original")).status).toBe(404);
});
