import { expect, onTestFinished, test } from "vitest";
import { findPurpose } from "#drizzle/queries/aims.ts";
import { insertEyeCheck } from "#drizzle/queries/eye-checks.ts";
import { layingEnded } from "#server/actions/lay-side-of-print.ts";
import { serve } from "#server/serve.ts";
import { keptPrint } from "../fixtures/captured-print.ts";
import { SMALL } from "../fixtures/captured-sheet.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { drawCapture, keepCapture } from "../fixtures/laid-captures.ts";
import { launchBrowser } from "./browser.ts";

/** A pair drawn for the eye and not laid yet, its page open in a browser. */
async function pairToJudge() {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001", { sheetWidthMm: SMALL.widthMm, sheetHeightMm: SMALL.heightMm });
  const keep = (ppi: number) => keepCapture(context, printId, drawCapture({ seed: 62, noiseSeed: ppi, ppi, turnDeg: 1 }), `${ppi}.png`);
  const [leftId, rightId] = [await keep(120), await keep(100)];
  const purpose = findPurpose(context.db, "screen") as NonNullable<ReturnType<typeof findPurpose>>;
  const { aimId } = context.db.$client.prepare("select id as aimId from aims where purpose_id = ?").get(purpose.id) as { aimId: number };
  const drawn = { printId, side: "front" as const, purposeId: purpose.id, aimId, ruleId: leftId, decisive: null, closeCall: false };
  const check = insertEyeCheck(context.db, { ...drawn, leftId, rightId, userId: context.userId, createdAt: context.now() });
  const serving = await serve(context, { port: 0 });
  if (!serving.ok) throw new Error(serving.refusals[0]?.happened);
  const browser = await launchBrowser();
  onTestFinished(async () => {
    await browser.close();
    await layingEnded();
    await serving.value.stop();
  });
  const page = await browser.newPage({ viewport: { width: 1200, height: 600 } });
  const answers: string[] = [];
  page.on("request", (request) => void (request.method() === "POST" && answers.push(request.postData() ?? "")));
  await page.goto(`${serving.value.url}/eye/${check.address}`);
  return { page, answers };
}

test("keys of a blind pair come once it is laid, and answer or choose only while an answer or a picture has the focus", async () => {
  const { page, answers } = await pairToJudge();
  await page.locator("#eye-wait").waitFor();
  // on the usual way the pair is swapped in, without the page being loaded anew
  await page.locator("[data-eye-keys]:visible").waitFor({ timeout: 120_000 });

  const left = page.getByRole("button", { name: "Left is better" });
  for (const key of ["ArrowDown", "ArrowLeft", "ArrowRight", "3"]) await page.keyboard.press(key);
  await left.focus();
  await page.keyboard.press("ArrowDown");
  await page.waitForTimeout(500);
  expect(answers).toEqual([]);
  expect(new URL(page.url()).search).toBe("");

  await page.keyboard.press("3");
  await page.waitForURL(/\?place=3$/);
  // the page came anew; the next key is taken all the same
  await page.waitForFunction(() => document.activeElement?.closest(".eye-pair"));
  await page.keyboard.press("ArrowRight");
  await page.getByRole("heading", { name: "You found the right one better" }).waitFor();
  expect(answers).toEqual(["answer=right"]);
}, 180_000);
