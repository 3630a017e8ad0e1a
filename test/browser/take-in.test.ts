import sharp from "sharp";
import { expect, onTestFinished, test } from "vitest";
import { listCapturesOfPrint, listTray } from "#drizzle/queries/captures.ts";
import { cancelWaiting } from "#drizzle/queries/work.ts";
import { serve } from "#server/serve.ts";
import { keptPrint } from "../fixtures/captured-print.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { launchBrowser } from "./browser.ts";

/** A collection that is served, and a page of a browser to look at it with. */
async function served() {
  const context = emptyCollection();
  const serving = await serve(context, { port: 0 });
  if (!serving.ok) throw new Error(serving.refusals[0]?.happened);
  const browser = await launchBrowser();
  onTestFinished(async () => {
    await browser.close();
    await serving.value.stop();
  });
  const page = await browser.newPage();
  const complaints: string[] = [];
  page.on("console", (message) => void (message.type() === "error" && complaints.push(message.text())));
  page.on("pageerror", (error) => complaints.push(String(error)));
  return { context, url: serving.value.url, page, complaints };
}

const jpeg = (background: string) =>
  sharp({ create: { width: 60, height: 40, channels: 3, background } })
    .jpeg()
    .toBuffer();

test("files dropped on the form are added, and the part that tells of the measuring follows it to its end", async () => {
  const { context, url, page, complaints } = await served();
  const printId = keptPrint(context.db, "1978.001");
  await page.goto(`${url}/add`);
  const files = [
    { name: "1978.001_a.jpg", base64: (await jpeg("#884422")).toString("base64") },
    { name: "holiday.jpg", base64: (await jpeg("#224488")).toString("base64") },
  ];
  await page.evaluate((dropped) => {
    const transfer = new DataTransfer();
    for (const { name, base64 } of dropped) {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      transfer.items.add(new File([bytes], name, { type: "image/jpeg" }));
    }
    const zone = document.querySelector("[data-drop-zone]");
    zone?.dispatchEvent(new DragEvent("drop", { dataTransfer: transfer, bubbles: true, cancelable: true }));
  }, files);
  await page.getByText("2 files chosen").waitFor();
  await page.getByRole("button", { name: "Add captures" }).click();
  await page.getByRole("heading", { name: "2 taken in" }).waitFor();
  expect(listCapturesOfPrint(context.db, printId)).toHaveLength(1);
  expect(listTray(context.db)).toHaveLength(1);

  await page.getByText("0 in hand, 2 waiting").waitFor();
  cancelWaiting(context.db, context.now());
  await page.getByText("Show the page with the new measures").waitFor({ timeout: 10_000 });
  expect(await page.locator("#work-progress").getAttribute("hx-trigger")).toBe(null);
  expect(complaints).toEqual([]);
}, 60_000);

test("dropping is offered where there is a pointer, and not to fingers alone", async () => {
  const { url, page } = await served();
  const offer = "Files and folders can be dropped here too.";
  await page.goto(`${url}/add`);
  await page.getByText(offer).waitFor();
  const phone = await page
    .context()
    .browser()
    ?.newPage({ isMobile: true, hasTouch: true, viewport: { width: 390, height: 844 } });
  await phone?.goto(`${url}/add`);
  expect(await phone?.getByText("Picture files").isVisible()).toBe(true);
  expect(await phone?.getByText(offer).count()).toBe(0);
}, 60_000);
