import { expect, onTestFinished, test } from "vitest";
import { copyPurpose } from "#server/actions/create-purpose.ts";
import { serve } from "#server/serve.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { launchBrowser } from "./browser.ts";

test("what would change is asked for when a figure is typed, not for a name or a note", async () => {
  const context = emptyCollection();
  copyPurpose(context, { key: "preservation-master", name: "Walls" });
  const serving = await serve(context, { port: 0 });
  if (!serving.ok) throw new Error(serving.refusals[0]?.happened);
  const browser = await launchBrowser();
  onTestFinished(async () => {
    await browser.close();
    await serving.value.stop();
  });
  const page = await browser.newPage();
  const asked: string[] = [];
  page.on("request", (request) => void (request.method() === "POST" && asked.push(request.postData() ?? "")));
  await page.goto(`${serving.value.url}/purposes/own-walls/edit`);
  await page.getByLabel("Name").fill("Hall");
  await page.getByLabel("What you changed, and why").fill("The hall is dark.");
  await page.waitForTimeout(1500);
  expect(asked).toEqual([]);
  const answered = page.waitForResponse((response) => response.request().method() === "POST");
  await page.locator("[name='limits.samplingPpi.requiredAtLeast']").fill("310");
  expect((await answered).status()).toBe(200);
  expect(asked).toHaveLength(1);
  expect(asked[0]).toContain("310");
}, 60_000);
