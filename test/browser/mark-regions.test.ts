import { expect, onTestFinished, test } from "vitest";
import { judgementsOfPrint } from "#drizzle/queries/findings.ts";
import { serve } from "#server/serve.ts";
import { aPrintWithASheet } from "../fixtures/print-with-sheet.ts";
import { launchBrowser } from "./browser.ts";

test("places are drawn on the picture by keyboard and by pointer, told as they are set, and kept in mm of the print", async () => {
  const { context, printId } = await aPrintWithASheet();
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
  await page.goto(`${serving.value.url}/prints/${printId}/survey`);
  await page.locator('[name="found.0.term"]').fill("Mould");
  await page.locator('[name="found.0.severity"]').selectOption("2");
  await page.getByRole("button", { name: "Mark on the picture" }).first().click();

  // the sheet is 80 × 60 mm: the cross begins in its middle
  const said = page.locator(".marking-words");
  expect(await said.textContent()).toContain("40 mm from the left, 30 mm from the top");
  for (const key of ["ArrowLeft", "Shift+ArrowUp", "Enter", "Alt+ArrowRight", "Shift+ArrowRight", "ArrowDown", "Enter"])
    await page.keyboard.press(key);
  expect(await said.textContent()).toBe("Marked: one place.");

  await page.locator(".marking-surface img").evaluate((picture: HTMLImageElement) => picture.decode());
  const box = await page.locator(".marking-surface img").boundingBox();
  if (!box) throw new Error("the picture is not shown");
  const at = (xMm: number, yMm: number) => [box.x + (xMm / 80) * box.width, box.y + (yMm / 60) * box.height] as const;
  await page.mouse.move(...at(50, 40));
  await page.mouse.down();
  await page.mouse.move(...at(70, 50), { steps: 3 });
  await page.mouse.up();
  await page.getByLabel("Outline").check();
  for (const corner of [at(5, 5), at(15, 5), at(10, 20)]) await page.mouse.click(...corner);
  await page.getByRole("button", { name: "Close the outline" }).click();
  await page.mouse.click(...at(70, 10));
  await page.getByRole("button", { name: "Take back the last" }).click();
  expect(await said.textContent()).toBe("No corner is set.");
  await page.getByRole("button", { name: "Done" }).click();
  await page.getByRole("button", { name: "Save this look" }).click();
  await page.getByText("The look is kept").waitFor();

  const [typed, dragged, outline] = judgementsOfPrint(context.db, printId)[0]?.regions ?? [];
  expect(typed?.map(({ xMm, yMm }) => [xMm, yMm])).toEqual([
    [39, 20],
    [49.1, 20],
    [49.1, 21],
    [39, 21],
  ]);
  // a pixel of the screen is a quarter of a millimetre here
  for (const [corner, truth] of [
    [dragged?.[0], [50, 40]],
    [dragged?.[2], [70, 50]],
    [outline?.[1], [15, 5]],
    [outline?.[2], [10, 20]],
  ] as const) {
    expect(Math.abs((corner?.xMm ?? Number.NaN) - truth[0])).toBeLessThan(0.35);
    expect(Math.abs((corner?.yMm ?? Number.NaN) - truth[1])).toBeLessThan(0.35);
  }
  expect(outline).toHaveLength(3);
  expect(complaints).toEqual([]);
}, 60_000);
