import { expect, onTestFinished, test } from "vitest";
import { layingEnded } from "#server/actions/lay-side-of-print.ts";
import { serve } from "#server/serve.ts";
import { keptPrint } from "../fixtures/captured-print.ts";
import { SMALL } from "../fixtures/captured-sheet.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { drawCapture, keepCapture } from "../fixtures/laid-captures.ts";
import { launchBrowser } from "./browser.ts";

/** A print with three captures, served, its comparison open in a browser. */
async function comparison(viewport: { width: number; height: number; hasTouch?: boolean } = { width: 1200, height: 1000 }) {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001", { sheetWidthMm: SMALL.widthMm, sheetHeightMm: SMALL.heightMm });
  for (const [index, ppi] of [200, 150, 120].entries())
    await keepCapture(context, printId, drawCapture({ seed: 61, noiseSeed: index, ppi, turnDeg: index }), `capture-${index + 1}.png`);
  const serving = await serve(context, { port: 0 });
  if (!serving.ok) throw new Error(serving.refusals[0]?.happened);
  const browser = await launchBrowser();
  onTestFinished(async () => {
    await browser.close();
    await layingEnded();
    await serving.value.stop();
  });
  const { hasTouch = false, ...size } = viewport;
  const page = await browser.newPage({ viewport: size, hasTouch });
  const complaints: string[] = [];
  page.on("console", (message) => void (message.type() === "error" && complaints.push(message.text())));
  page.on("pageerror", (error) => complaints.push(String(error)));
  await page.goto(`${serving.value.url}/prints/${printId}/compare`);
  return { page, complaints, address: `${serving.value.url}/prints/${printId}/compare` };
}

test("captures open by themselves once laid, zoom and move as one, flip by a key, wipe, keep the view in the address, at the true size", async () => {
  const { page, complaints, address } = await comparison();
  const stage = page.locator("#stage");
  // the page asks for itself until the captures are laid, and goes on without being loaded anew
  await page.locator("#stage[tabindex='0']").waitFor({ timeout: 120_000 });
  await page.waitForFunction(() => document.querySelectorAll("#stage canvas").length === 3);
  const shown = () => page.evaluate(() => document.querySelector("[data-scale]")?.textContent ?? "");
  const asked = () => new URL(page.url()).searchParams;
  /** The address follows what is shown, later on a busy machine. */
  const asks = (name: string) => expect.poll(() => asked().get(name));
  const [middleAskedMm, heightAskedMm] = [0, 1].map((axis) => () => Number(asked().get("at")?.split(",")[axis])) as [
    () => number,
    () => number,
  ];
  const visible = () =>
    page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>(".comparison-pane")]
        .filter((pane) => getComputedStyle(pane).visibility === "visible")
        .map((pane) => pane.dataset.number),
    );
  expect(await visible()).toEqual(["1", "2", "3"]);

  // keys work from the start, where a visible line says so; a field keeps its own keys
  expect(await stage.evaluate((each) => document.activeElement === each)).toBe(true);
  await expect.poll(() => page.getByText("They work while the pictures or these controls have the focus").first().isVisible()).toBe(true);
  await page.keyboard.press("d");
  expect(await page.locator("[data-gain]").inputValue()).toBe("1");
  await page.locator("[data-gain]").focus();
  await page.keyboard.press("w");
  expect(await stage.getAttribute("data-view")).toBe("difference");
  await stage.focus();
  await page.keyboard.press("s");
  await page.getByRole("button", { name: /^300 %/ }).click();
  await page.waitForFunction(() => document.querySelector("[data-scale]")?.textContent === "300 % of print size");
  // the button that was pressed has the focus: the pictures' keys work from there too
  await page.keyboard.press("ArrowRight");
  // every pane shows the same part: one pattern of dark and light in all of them
  const leastAlike = () =>
    page.evaluate(() => {
      const rows = [...document.querySelectorAll<HTMLCanvasElement>("#stage canvas")].map((canvas) => {
        const small = document.createElement("canvas");
        small.width = small.height = 24;
        const drawing = small.getContext("2d") as CanvasRenderingContext2D;
        drawing.drawImage(canvas, 0, 0, 24, 24);
        const { data } = drawing.getImageData(0, 0, 24, 24);
        return Array.from({ length: 576 }, (_, at) => data[4 * at + 1] as number);
      });
      const like = (one: number[], other: number[]) => {
        const mean = (of: number[]) => of.reduce((sum, value) => sum + value, 0) / of.length;
        const [a, b] = [one.map((value) => value - mean(one)), other.map((value) => value - mean(other))];
        const dot = (p: number[], q: number[]) => p.reduce((sum, value, at) => sum + value * (q[at] as number), 0);
        return dot(a, b) / Math.sqrt(dot(a, a) * dot(b, b));
      };
      return Math.min(...rows.slice(1).map((row) => like(rows[0] as number[], row)));
    });
  // 60 px of the page to the right, at three times 96 pixels an inch
  await expect.poll(() => middleAskedMm() - SMALL.widthMm / 2).toBeCloseTo(60 / ((3 * 96) / 25.4), 1);
  await expect.poll(leastAlike).toBeGreaterThan(0.95);
  const middle = middleAskedMm();

  // space is the button's own while it has the focus
  await stage.focus();
  await page.keyboard.press("2");
  expect(await visible()).toEqual(["2"]);
  await page.keyboard.press(" ");
  expect(await visible()).toEqual(["3"]);
  expect(await page.locator("[data-told]").textContent()).toBe("Shown: capture 3, capture-3.png.");
  expect(await shown()).toBe("300 % of print size");
  await expect.poll(() => Object.fromEntries(asked())).toMatchObject({ view: "single", first: "3", zoom: "300.0" });

  await page.keyboard.press("w");
  expect(await visible()).toEqual(["1", "2"]);
  // one over the other they have the whole width, whatever the print's shape and however many there are
  for (const shape of ["comparison-wide", "comparison-high"]) {
    await stage.evaluate((each, name) => {
      each.classList.remove("comparison-wide", "comparison-high");
      each.classList.add(name);
    }, shape);
    const [pane, whole] = [await page.locator(".comparison-pane[data-role='over']").boundingBox(), await stage.boundingBox()];
    expect(pane?.width, shape).toBeCloseTo(whole?.width ?? 0, 0);
  }
  await page.keyboard.press("]");
  await asks("line").toBe("52");
  const kept = page.url();
  await page.goto(kept);
  await page.locator("#stage[data-view='wipe'] canvas").first().waitFor();
  await page.waitForFunction(() => document.querySelector("[data-scale]")?.textContent === "300 % of print size");
  await expect.poll(middleAskedMm).toBeCloseTo(middle, 1);
  await asks("line").toBe("52");

  await stage.focus();
  await page.keyboard.press("d");
  expect(await page.locator(".comparison-pane[data-role='over']").evaluate((pane) => getComputedStyle(pane).mixBlendMode)).toBe(
    "difference",
  );
  await page.keyboard.press("f");
  await asks("at").toBeNull();

  // tones of the reference, for panes and close-ups alike; a close-up's place is shown above
  await page.keyboard.press("t");
  await asks("tone").toBe("matched");
  const filters = await page.locator(".comparison-tiles").evaluateAll((all) => all.map((each) => (each as HTMLElement).style.filter));
  expect(filters.filter((filter) => /^url\("#tones-\d"\)$/.test(filter))).toHaveLength(2); // the reference keeps its own
  expect(
    await page
      .locator("img[data-matched]")
      .evaluateAll((all) => all.filter((each) => each.getAttribute("src")?.endsWith("matched")).length),
  ).toBe(8);
  const go = page.getByRole("link", { name: "Show this place above" }).first();
  const place = (await go.getAttribute("data-at"))?.split(",").map(Number) ?? [];
  await go.click();
  await expect.poll(middleAskedMm).toBeCloseTo(place[0] as number, 1);
  await expect.poll(heightAskedMm).toBeCloseTo(place[1] as number, 1);

  // what measures draw lies on the same part as the pictures, and is switched
  await page.getByText("Draw what was measured over the captures").click();
  await page.getByRole("checkbox", { name: "Outline of the sheet" }).check();
  await asks("drawn").toBe("outline");
  const layer = page.locator(".comparison-pane[data-role='under'] .layer-outline");
  expect(await layer.evaluate((each) => getComputedStyle(each).display)).not.toBe("none");
  await stage.focus();
  await page.keyboard.press("l");
  expect(
    await page.locator(".comparison-pane .overlay-layers").evaluateAll((all) => all.map((each) => getComputedStyle(each).display)),
  ).toEqual(["none", "none", "none"]);

  // strange addresses open as if nothing were asked for
  await page.goto(`${address}?view=upside&at=nowhere&zoom=-5&first=99&line=x`);
  await page.locator("#stage[data-view='beside'][tabindex='0']").waitFor();

  // a card held against the screen makes print size true, and is kept
  await page.getByText("Make print size true on this screen").click();
  const bar = page.locator("[data-card-bar]");
  expect((await bar.boundingBox())?.width).toBeCloseTo((85.6 * 96) / 25.4, 0);
  await page.locator("[data-card]").fill("428");
  expect((await bar.boundingBox())?.width).toBeCloseTo(428, 0);
  await page.goto(`${address}?at=20,20&zoom=200`);
  await page.locator("#stage[tabindex='0']").waitFor();
  await page.getByRole("button", { name: /^Print size/ }).click();
  await page.waitForFunction(() => document.querySelector("[data-scale]")?.textContent === "100 % of print size");
  await page.locator("#stage").focus();
  await asks("zoom").toBe("100.0");
  const before = middleAskedMm();
  await page.keyboard.press("ArrowRight");
  // 428 px for 85.6 mm are five to the millimetre: 60 px are 12 mm
  await expect.poll(() => middleAskedMm() - before).toBeCloseTo(12, 1);
  expect(complaints).toEqual([]);
}, 240_000);

test("two fingers apart enlarge all captures alike about the place between them, one finger moves them, and the page stays where it is", async () => {
  const { page, complaints } = await comparison({ width: 390, height: 844, hasTouch: true });
  await page.locator("#stage[tabindex='0']").waitFor({ timeout: 120_000 });
  await page.waitForFunction(() => document.querySelectorAll("#stage canvas").length === 3);
  const pane = page.locator(".comparison-pane[data-number='1'] .comparison-picture");
  await pane.scrollIntoViewIfNeeded();
  const box = await pane.boundingBox();
  if (!box) throw new Error("the first pane is not there");
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const touch = await page.context().newCDPSession(page);
  const fingers = (type: "touchStart" | "touchMove" | "touchEnd", ...at: [number, number][]) =>
    touch.send("Input.dispatchTouchEvent", { type, touchPoints: at.map(([px, py], id) => ({ x: px, y: py, id })) });
  const asked = (name: string) => new URL(page.url()).searchParams.get(name);
  const askedMm = (axis: 0 | 1) => Number(asked("at")?.split(",")[axis]);

  expect(asked("zoom")).toBeNull();
  const whole = Number.parseFloat((await page.locator("[data-scale]").textContent()) ?? "");
  await fingers("touchStart", [x - 15, y], [x + 15, y]);
  for (let apart = 15; apart <= 45; apart += 3) await fingers("touchMove", [x - apart, y], [x + apart, y]);
  await fingers("touchEnd");
  await expect.poll(() => Number(asked("zoom")) / whole).toBeGreaterThan(2);
  await page.waitForTimeout(1000); // what moves comes to rest
  expect(Number(asked("zoom")) / whole).toBeLessThan(4);
  const atX = askedMm(0);
  expect(Math.abs(atX - SMALL.widthMm / 2)).toBeLessThan(4);
  expect(Math.abs(askedMm(1) - SMALL.heightMm / 2)).toBeLessThan(4);

  const scrolled = await page.evaluate(() => scrollY);
  await fingers("touchStart", [x + 30, y]);
  for (let moved = 30; moved >= -30; moved -= 5) await fingers("touchMove", [x + moved, y]);
  await fingers("touchEnd");
  await expect.poll(() => askedMm(0)).toBeGreaterThan(atX + 2);
  expect(await page.evaluate(() => scrollY)).toBe(scrolled);
  // what is drawn over each shows the same part as the first
  const parts = await page.locator(".comparison-pane .overlay-layers").evaluateAll((all) =>
    all.map((each) =>
      (each.getAttribute("viewBox") ?? "")
        .split(" ")
        .map((value) => Math.round(Number(value)))
        .join(" "),
    ),
  );
  expect(new Set(parts).size).toBe(1);
  expect(complaints).toEqual([]);
}, 240_000);
