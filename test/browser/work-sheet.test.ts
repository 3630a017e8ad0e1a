import { createReadStream } from "node:fs";
import path from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { insertPlace } from "#drizzle/queries/places.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { serve } from "#server/serve.ts";
import { startWork } from "#server/work/queue.ts";
import { DEMO_CAPTURES } from "../../demo-collection/read-manifest.ts";
import { keptPrint } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { launchBrowser } from "./browser.ts";

const demo = (name: string) => path.join(DEMO_CAPTURES, name);

test("on a phone without script: from falls short through a work sheet and a new capture to a row that closed itself", async () => {
  const context = emptyCollection();
  const box = insertPlace(context.db, { parentId: null, kind: "box", name: "Instant prints" });
  const known = {
    processId: "integral-instant-colour",
    formatId: "integral-small-square",
    processedOn: "2019-07-20",
    title: "First tomatoes",
  };
  keptPrint(context.db, "2019.001.01", { ...known, placeId: box });
  const scan = demo("2019.001.01_flatbed-1.jpg");
  await takeInCapture(context, { source: createReadStream(scan), originalName: "2019.001.01_flatbed-1.jpg", method: "flatbed-scanner" });
  const serving = await serve(context, { port: 0 });
  if (!serving.ok) throw new Error(serving.refusals[0]?.happened);
  const browser = await launchBrowser();
  onTestFinished(async () => {
    await browser.close();
    await serving.value.stop();
  });
  const measured = async () => {
    const work = startWork(context, { onMeasured: (printId) => chooseMasters(context, { printIds: [printId] }) });
    await work.idle();
    await work.stop();
  };
  await measured();

  const page = await browser.newPage({ viewport: { width: 390, height: 844 }, javaScriptEnabled: false });
  await page.goto(`${serving.value.url}/recapture`);
  await page.getByText(/^Sampling is \d+ ppi where at least 392 ppi is asked/).waitFor();
  await page.getByRole("link", { name: "Make a work sheet" }).click();
  await page.getByRole("button", { name: "Make the work sheet" }).click();
  await page.getByRole("heading", { name: "Instant prints" }).waitFor();
  expect(await page.getByText("0 of 1 done").count()).toBe(1);
  const sheetUrl = page.url().split("?")[0] as string;
  // what is to be minded stands before the print
  const row = page.locator(".sheet-row");
  expect(await row.evaluate((element: Element) => element.firstElementChild?.className)).toBe("sheet-cautions");
  await page.getByRole("button", { name: /^Captured.*2019\.001\.01$/ }).click();
  await page.getByText("Captured at the stand.").waitFor();

  await page.goto(`${serving.value.url}/add`);
  await page.locator("#field-files").setInputFiles(demo("2019.001.01_copy-stand-1.tif"));
  await page.getByRole("button", { name: "Add captures" }).click();
  await page.getByRole("heading", { name: "1 taken in" }).waitFor();
  await measured();
  await page.goto(sheetUrl);
  await page.getByText("1 of 1 done").waitFor();
  expect(await page.getByText("2019.001.01_copy-stand-1.tif meets the aim.").count()).toBe(1);
  await page.goto(`${serving.value.url}/recapture`);
  await page.getByText("Nothing has to be captured again").waitFor();
}, 180_000);
