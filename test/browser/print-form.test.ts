import { expect, onTestFinished, test } from "vitest";
import { serve } from "#server/serve.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { launchBrowser } from "./browser.ts";

test("a half-typed record comes back after a place was added for it, and is gone once the print is kept", async () => {
  const serving = await serve(emptyCollection(), { port: 0 });
  if (!serving.ok) throw new Error(serving.refusals[0]?.happened);
  const browser = await launchBrowser();
  onTestFinished(async () => {
    await browser.close();
    await serving.value.stop();
  });
  const page = await browser.newPage();
  const { url } = serving.value;
  const title = page.locator('[name="title"]');
  const back = page.getByText("and not saved is filled in again");

  await page.goto(`${url}/prints/new`);
  await title.fill("The red bicycle");
  await page.getByRole("main").getByRole("link", { name: "Places" }).click();
  await page.locator('[name="name"]').fill("Study");
  await page.getByRole("button", { name: "Add the place" }).click();
  await page.getByText("The place is there").waitFor();
  await page.goto(`${url}/prints/new`);
  await back.waitFor();
  expect(await title.inputValue()).toBe("The red bicycle");
  await page.locator('[name="placeId"]').selectOption({ label: "Study" });
  await page.getByRole("button", { name: "Save the new print" }).click();
  await page.getByText("The print is in the collection").waitFor();

  await page.goto(`${url}/prints/new`);
  expect(await title.inputValue()).toBe("");
  expect(await back.count()).toBe(0);

  // over a record that was saved meanwhile, nothing is put back
  await page.goto(`${url}/prints/1/edit`);
  await title.fill("The green bicycle");
  await page.goto(`${url}/prints/1/edit`);
  await back.waitFor();
  await page.getByRole("button", { name: "Save the changes" }).click();
  await page.getByRole("heading", { name: "The green bicycle" }).waitFor();
  await page.goto(`${url}/prints/1/edit`);
  expect(await back.count()).toBe(0);
}, 60_000);
