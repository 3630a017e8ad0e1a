import { expect, onTestFinished, test } from "vitest";
import { serve } from "#server/serve.ts";
import { keptPrint, measuredCapture } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { launchBrowser } from "./browser.ts";

test("numbers typed for several captures of the tray stay when one of them is assigned, and what was sent does not come back", async () => {
  const context = emptyCollection();
  keptPrint(context.db, "1978.001");
  const [first, second] = ["garden.tif", "harbour.tif"].map((fileName) => measuredCapture(context.db, null, {}, { fileName }));
  const serving = await serve(context, { port: 0 });
  if (!serving.ok) throw new Error(serving.refusals[0]?.happened);
  const browser = await launchBrowser();
  onTestFinished(async () => {
    await browser.close();
    await serving.value.stop();
  });
  const page = await browser.newPage();
  // no file lies behind these captures
  await page.route("**/thumbnail.jpg", (route) => route.abort());
  const number = (capture: number | undefined) => page.locator(`#print-${capture}`);
  const assign = (capture: number | undefined) => page.locator(`#capture-${capture}`).getByRole("button", { name: "Assign" }).click();

  await page.goto(`${serving.value.url}/tray`);
  await number(first).fill("1978.001");
  await number(second).fill("1978.0001");
  await assign(first);
  await page.getByText("The capture has its print").waitFor();
  expect(await number(first).count()).toBe(0);
  expect(await number(second).inputValue()).toBe("1978.0001");

  await assign(second);
  await page.getByText("There is no print with the number 1978.0001.").waitFor();
  await number(second).fill("1978.001");
  await assign(second);
  await page.getByText("Nothing waits.").waitFor();
  expect(await page.evaluate(() => Object.keys(localStorage))).toEqual([]);
}, 60_000);
