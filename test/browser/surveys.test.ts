import type { Page } from "playwright-core";
import { expect, onTestFinished, test } from "vitest";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import { lastSurvey } from "#drizzle/queries/surveys.ts";
import { serve } from "#server/serve.ts";
import { keptPrint } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { launchBrowser } from "./browser.ts";

type Serving = Parameters<typeof serve>[0];

async function opened(context: Serving) {
  const serving = await serve(context, { port: 0 });
  if (!serving.ok) throw new Error(serving.refusals[0]?.happened);
  const browser = await launchBrowser();
  onTestFinished(async () => {
    await browser.close();
    await serving.value.stop();
  });
  const page = await browser.newPage();
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
