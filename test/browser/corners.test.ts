import { mkdirSync } from "node:fs";
import path from "node:path";
import sharp from "sharp";
import { expect, onTestFinished, test } from "vitest";
import { cornerNumber } from "#domain/capture/corner-fields.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { findCapture } from "#drizzle/queries/captures.ts";
import { replaceReadings } from "#drizzle/queries/measures.ts";
import { originalPath } from "#server/collection-folder.ts";
import { serve } from "#server/serve.ts";
import { measuredCapture } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { outlineOf, quad } from "../fixtures/outlines.ts";
import { launchBrowser } from "./browser.ts";

const SHEET = {
  topLeft: { x: 100, y: 100 },
  topRight: { x: 500, y: 100 },
  bottomRight: { x: 500, y: 300 },
  bottomLeft: { x: 100, y: 300 },
};

type Screen = NonNullable<Parameters<Awaited<ReturnType<typeof launchBrowser>>["newPage"]>[0]>;

/** A grey capture of 600 × 400 px with sheets found on it, served to a browser. */
async function captureOf(sheets: readonly Quad[], screen: Screen) {
  const context = emptyCollection();
  const id = measuredCapture(context.db, null, {}, { kind: "png", widthPx: 600, heightPx: 400 });
  const file = originalPath(context.folder, findCapture(context.db, id)?.original.sha256 ?? "");
  mkdirSync(path.dirname(file), { recursive: true });
  await sharp({ create: { width: 600, height: 400, channels: 3, background: "#888" } })
    .png()
    .toFile(file);
  const found = sheets.map((sheet) => outlineOf(sheet, { cornerSpreadPx: 0.2 }));
  replaceReadings(context.db, id, "alone", { readings: [], basis: { found }, durationMs: null });
  const serving = await serve(context, { port: 0 });
  if (!serving.ok) throw new Error(serving.refusals[0]?.happened);
  const browser = await launchBrowser();
  onTestFinished(async () => {
    await browser.close();
    await serving.value.stop();
  });
  const page = await browser.newPage(screen);
  const complaints: string[] = [];
  page.on("console", (message) => void (message.type() === "error" && complaints.push(message.text())));
  page.on("pageerror", (error) => complaints.push(String(error)));
  return { context, id, page, complaints, url: serving.value.url };
}

async function outlinePage() {
  const { context, id, page, complaints, url } = await captureOf([SHEET], { viewport: { width: 1200, height: 900 } });
  await page.goto(`${url}/captures/${id}/outline`);
  const corner = page.getByRole("button", { name: /top left corner/ });
  await corner.waitFor();
  await page.waitForFunction(() => (document.querySelector("#outline-picture img") as HTMLImageElement | null)?.complete);
  const scale = await page.evaluate(() => 600 / (document.querySelector("#outline-picture img")?.clientWidth ?? 1));
  const typed = async (name: string) => Number(await page.locator(`[name="part1-${name}"]`).inputValue());
  return { context, id, page, corner, scale, typed, complaints };
}

test("a corner is dragged by pointer, moved by keys, and kept by the form as a person's", async () => {
  const { context, id, page, corner, scale, typed, complaints } = await outlinePage();
  const box = await corner.boundingBox();
  if (!box) throw new Error("no handle");
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 20, y + 10, { steps: 4 });
  await page.mouse.up();
  expect(await typed("topLeft-x")).toBeCloseTo(100 + 20 * scale, 0);
  expect(await typed("topLeft-y")).toBeCloseTo(100 + 10 * scale, 0);
  expect(await typed("topRight-x")).toBe(500);

  const before = { x: await typed("topLeft-x"), y: await typed("topLeft-y") };
  await corner.focus();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Shift+ArrowUp");
  expect(await typed("topLeft-x")).toBeCloseTo(before.x + scale, 0);
  expect(await typed("topLeft-y")).toBeCloseTo(before.y - 10 * scale, 0);
  expect(await page.locator("form [aria-live]").textContent()).toMatch(/^Part 1, top left: \d+ across, \d+ down$/);
  await page.locator(".corner-loupe img[src*='close-up']").waitFor();

  const kept = { x: await typed("topLeft-x"), y: await typed("topLeft-y") };
  await page.getByRole("button", { name: "Keep this outline" }).click();
  await page.getByText("The outline is kept as you set it").waitFor();
  expect(findCapture(context.db, id)?.saidOutline).toEqual({ ...SHEET, topLeft: kept });
  expect(complaints).toEqual([]);
}, 60_000);

test("a corner that cannot be read stands nowhere, the others stay, and it is back as soon as a number is typed", async () => {
  const { page, corner } = await outlinePage();
  const field = page.locator('[name="part1-topLeft-x"]');
  await field.fill("left");
  await corner.waitFor({ state: "hidden" });
  expect(await page.locator(".corner-handle:visible").count()).toBe(3);
  // as the page comes back when such a form was sent
  await page.getByRole("button", { name: "Keep this outline" }).click();
  await page.getByText("No number is written for top left across.").waitFor();
  const right = await page.locator("[data-handle='1-topRight']").boundingBox();
  const picture = await page.locator("#outline-picture img").first().boundingBox();
  expect(Math.abs((right?.x ?? 0) + (right?.width ?? 0) - (picture?.x ?? 0) - (500.5 / 600) * (picture?.width ?? 0))).toBeLessThan(1);
  await corner.waitFor({ state: "hidden" });
  await field.fill("120,5");
  await corner.waitFor();
  expect(await corner.getAttribute("aria-label")).toContain("121 across, 100 down");
}, 60_000);

test("a corner stands only where the server reads its numbers too", async () => {
  const { page, corner } = await outlinePage();
  const field = page.locator('[name="part1-topLeft-x"]');
  for (const unread of ["12x", "1.000,5", "1e2", "1234567", ""]) {
    await field.fill("120");
    await corner.waitFor();
    await field.fill(unread);
    expect(cornerNumber(unread), unread).toBeNaN();
    expect(await page.locator("[data-handle='1-topLeft']").isVisible(), unread).toBe(false);
  }
  await field.fill(" 12,5 ");
  await corner.waitFor();
  expect(await corner.getAttribute("aria-label")).toContain(`${Math.round(cornerNumber(" 12,5 "))} across`);
}, 60_000);

test("with two opposite corners unread, so that no side is known, the others stay large enough for a finger", async () => {
  const { page, corner } = await outlinePage();
  await page.locator('[name="part1-topLeft-x"]').fill("left");
  await page.locator('[name="part1-bottomRight-x"]').fill("right");
  await corner.waitFor({ state: "hidden" });
  const left = page.locator(".corner-handle:visible");
  expect(await left.count()).toBe(2);
  // WCAG 2.2, 2.5.8: at least 24 px
  for (const handle of await left.all()) {
    const box = await handle.boundingBox();
    expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(24);
  }
}, 60_000);

test("on a phone no corner of a bed lies over another, each is large enough for a finger, and its tip is on the corner", async () => {
  const sheets = [quad(20, 60, 195, 330), quad(205, 60, 395, 330), quad(405, 60, 580, 330)];
  const { page, url, complaints } = await captureOf(sheets, { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  await page.goto(`${url}/tray`);
  await page.locator("[data-handle='3-bottomLeft']").waitFor();
  await page.waitForFunction(() => (document.querySelector(".corner-stage img") as HTMLImageElement | null)?.complete);
  const { picture, boxes } = await page.evaluate(() => ({
    picture: document.querySelector(".corner-stage img")?.getBoundingClientRect().toJSON(),
    boxes: [...document.querySelectorAll<HTMLElement>(".corner-handle")].map((handle) => ({
      name: handle.dataset.handle ?? "",
      ...handle.getBoundingClientRect().toJSON(),
    })),
  }));
  expect(boxes).toHaveLength(12);
  // WCAG 2.2, 2.5.8: at least 24 px
  for (const { width, height, name } of boxes) expect(Math.min(width, height), name).toBeGreaterThanOrEqual(24);
  for (const a of boxes)
    for (const b of boxes)
      if (a !== b)
        expect(a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top, `${a.name}, ${b.name}`).toBe(true);
  const second = boxes.find(({ name }) => name === "2-topRight");
  expect(Math.abs(second.right - (picture.left + (picture.width * 395.5) / 600))).toBeLessThan(1);
  expect(Math.abs(second.top - (picture.top + (picture.height * 60.5) / 400))).toBeLessThan(1);
  expect(complaints).toEqual([]);
}, 60_000);
