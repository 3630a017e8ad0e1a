import type { Page } from "playwright-core";
import { expect, onTestFinished, test } from "vitest";
import { judgementsOfPrint, latestFindings } from "#drizzle/queries/findings.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import { lastSurvey } from "#drizzle/queries/surveys.ts";
import { serve } from "#server/serve.ts";
import { keptPrint } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { aPrintWithASheet } from "../fixtures/print-with-sheet.ts";
import { launchBrowser } from "./browser.ts";

type Serving = Parameters<typeof serve>[0];
type PageOptions = Parameters<Awaited<ReturnType<typeof launchBrowser>>["newPage"]>[0];

async function opened(context: Serving, options: PageOptions = {}) {
  const serving = await serve(context, { port: 0 });
  if (!serving.ok) throw new Error(serving.refusals[0]?.happened);
  const browser = await launchBrowser();
  onTestFinished(async () => {
    await browser.close();
    await serving.value.stop();
  });
  const page = await browser.newPage(options);
  const complaints: string[] = [];
  page.on("pageerror", (error) => complaints.push(String(error)));
  return { page, url: serving.value.url, complaints };
}

/** Tab until a field of this name, or the button of these words, has the keys; fails where none ever gets them. */
async function tabTo(page: Page, wanted: string): Promise<void> {
  for (let pressed = 0; pressed < 60; pressed++) {
    const isThere = await page.evaluate((name) => {
      const { activeElement } = document;
      return activeElement?.getAttribute("name") === name || (activeElement?.tagName === "BUTTON" && activeElement.textContent === name);
    }, wanted);
    if (isThere) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`no way to ${wanted} by Tab`);
}

test("a round goes through two prints by keys alone: something new on the first, nothing on the second", async () => {
  const context = emptyCollection();
  const placeId = insertPlace(context.db, { parentId: null, kind: "box", name: "Tin" });
  const [first, second] = ["1", "2"].map((number) => keptPrint(context.db, number, { placeId })) as [number, number];
  const { page, url, complaints } = await opened(context);
  await page.goto(`${url}/rounds`);
  await tabTo(page, "placeId");
  await page.keyboard.type("Tin");
  await tabTo(page, "Begin, or go on");
  await page.keyboard.press("Enter");
  await page.waitForURL(/\/look$/);

  await tabTo(page, "found.0.term");
  await page.keyboard.type("Mould");
  // the page is loaded anew: what was typed is there, and Enter does not go on without it
  await page.reload();
  await page.getByText("is filled in again").waitFor();
  await page.keyboard.press("Enter");
  expect(await page.locator('[name="found.0.term"]').inputValue()).toBe("Mould");
  expect(lastSurvey(context.db, first)).toBeNull();
  await tabTo(page, "found.0.term");
  const beside = page.locator("[data-term-beside]").first();
  expect(await beside.textContent()).toContain("4 severe:");
  await page.keyboard.press("Tab");
  await page.keyboard.type("2");
  await tabTo(page, "lookedAtBy");
  await page.keyboard.type("Nell");
  await tabTo(page, "Keep and go on");
  await page.keyboard.press("Enter");
  await page.getByText("2 of 2").waitFor();
  expect(latestFindings(context.db, [first]).get(first)).toMatchObject([{ term: "mould", severity: 2, lookedAtBy: "Nell" }]);

  // the page opens on the button that keeps "nothing new"
  await page.keyboard.press("Enter");
  await page.getByText("Every print of this round has been looked at.").waitFor();
  expect(lastSurvey(context.db, second)).toMatchObject({ grade: "good", lookedAtBy: "Nell" });
  expect(complaints).toEqual([]);
}, 60_000);

test("a place is marked by touch on a phone, by taps and by a finger that draws", async () => {
  const { context, printId } = await aPrintWithASheet();
  const { page, url, complaints } = await opened(context, { hasTouch: true, isMobile: true, viewport: { width: 390, height: 844 } });
  await page.goto(`${url}/prints/${printId}/survey`);
  await page.locator('[name="found.0.term"]').fill("Mould");
  await page.locator('[name="found.0.severity"]').selectOption("2");
  await page.getByRole("button", { name: "Mark on the picture" }).first().tap();
  await page.locator(".marking-surface img").evaluate((picture: HTMLImageElement) => picture.decode());
  const box = await page.locator(".marking-surface img").boundingBox();
  if (!box) throw new Error("the picture is not shown");
  // the sheet is 80 × 60 mm
  const at = (xMm: number, yMm: number) => ({ x: box.x + (xMm / 80) * box.width, y: box.y + (yMm / 60) * box.height });
  const place = () => page.locator(".marking-surface img").boundingBox();
  const tap = async (xMm: number, yMm: number) => page.touchscreen.tap(at(xMm, yMm).x, at(xMm, yMm).y);
  await tap(10, 10);
  // told that a corner is set, the picture stays where it was for the next
  expect(await place()).toEqual(box);
  await tap(30, 25);
  const said = page.locator(".marking-words");
  await expect.poll(() => said.textContent()).toBe("Marked: one place.");

  const touch = await page.context().newCDPSession(page);
  const finger = (type: "touchStart" | "touchMove" | "touchEnd", points: { x: number; y: number }[]) =>
    touch.send("Input.dispatchTouchEvent", { type, touchPoints: points });
  await finger("touchStart", [at(40, 30)]);
  for (const [x, y] of [
    [50, 40],
    [60, 50],
    [70, 55],
  ] as const)
    await finger("touchMove", [at(x, y)]);
  // the finger rests before it lifts: lifted in full move, the browser may take the tap that follows for the end of a fling
  await page.waitForTimeout(200);
  await finger("touchMove", [at(70, 55)]);
  await page.waitForTimeout(200);
  await finger("touchEnd", []);
  await expect.poll(() => said.textContent()).toBe("Marked: 2 places.");
  await page.getByRole("button", { name: "Done" }).tap();
  await page.getByRole("button", { name: "Save this look" }).tap();
  await page.getByText("The look is kept").waitFor();

  // a finger lands on whole pixels of the screen, some 0.25 mm here
  const [tapped, drawn] = judgementsOfPrint(context.db, printId)[0]?.regions ?? [];
  for (const [corner, truth] of [
    [tapped?.[0], [10, 10]],
    [tapped?.[2], [30, 25]],
    [drawn?.[0], [40, 30]],
    [drawn?.[2], [70, 55]],
  ] as const) {
    expect(Math.abs((corner?.xMm ?? Number.NaN) - truth[0])).toBeLessThan(0.5);
    expect(Math.abs((corner?.yMm ?? Number.NaN) - truth[1])).toBeLessThan(0.5);
  }
  expect(complaints).toEqual([]);
}, 60_000);

test("a half-typed look comes back after the page was closed, can be discarded, and is gone once it is kept", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1");
  const { page, url, complaints } = await opened(context);
  const address = `${url}/prints/${printId}/survey`;
  const term = (row: number) => page.locator(`[name="found.${row}.term"]`);
  const back = page.getByText("is filled in again");
  await page.goto(address);
  await page.getByRole("button", { name: "More rows" }).click();
  await term(4).fill("Tear");
  await page.locator('[name="found.4.severity"]').selectOption("3");
  await page.locator('[name="note"]').fill("by the <window>");
  await page.goto(url);
  await page.goto(address);
  await back.waitFor();
  expect(await term(4).inputValue()).toBe("Tear");
  expect(await page.locator('[name="found.4.severity"]').inputValue()).toBe("3");
  expect(await page.locator("[data-term-beside]").nth(4).textContent()).toContain("4 severe:");
  expect(await page.locator('[name="note"]').inputValue()).toBe("by the <window>");
  await page.getByRole("button", { name: "Discard" }).click();
  expect(await term(4).inputValue()).toBe("");
  await page.goto(address);
  expect(await back.count()).toBe(0);

  // refused: what was sent is the draft now
  await term(0).fill("Mould");
  await page.getByRole("button", { name: "Save this look" }).click();
  await page.getByText("Choose a level from 0 to 4.").first().waitFor();
  await page.goto(address);
  await back.waitFor();
  await page.locator('[name="found.0.severity"]').selectOption("1");
  await page.getByRole("button", { name: "Save this look" }).click();
  await page.getByText("The look is kept").waitFor();

  // the finding is there to be judged again; nothing of the draft is
  await page.goto(address);
  expect(await back.count()).toBe(0);
  expect(await term(0).inputValue()).toBe("");
  await page.locator('[name="rejudged.0.change"]').selectOption("worse");
  await page.goto(address);
  await back.waitFor();
  expect(await page.locator('[name="rejudged.0.change"]').inputValue()).toBe("worse");
  expect(complaints).toEqual([]);
}, 60_000);
