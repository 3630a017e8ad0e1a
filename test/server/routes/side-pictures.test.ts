import sharp from "sharp";
import { expect, test, vi } from "vitest";
import { setSaidOutline } from "#drizzle/queries/captures.ts";
import { findMeasureSet, replaceReadings } from "#drizzle/queries/measures.ts";
import { createApp } from "#server/app.ts";
import { Thread } from "#server/work/thread.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { aPrintWithASheet } from "../../fixtures/print-with-sheet.ts";

test("the side is shown on the print's own mm grid: what lies 20 mm from the left and 30 from the top is there", async () => {
  const { context, printId } = await aPrintWithASheet();
  const answer = await createApp(context).request(`/prints/${printId}/sides/front.jpg`);
  expect(answer.headers.get("content-type")).toBe("image/jpeg");
  const { data, info } = await sharp(await answer.arrayBuffer())
    .raw()
    .toBuffer({ resolveWithObject: true });
  // 12 px for a millimetre, the most that is made
  expect([info.width, info.height]).toEqual([960, 720]);
  const isRed = (xMm: number, yMm: number) => {
    const at = (Math.round(yMm * 12) * info.width + Math.round(xMm * 12)) * info.channels;
    return (data[at] as number) > 180 && (data[at + 1] as number) < 90;
  };
  expect([isRed(20.5, 30.5), isRed(29.5, 39.5)]).toEqual([true, true]);
  expect([isRed(19.5, 30.5), isRed(20.5, 29.5), isRed(30.5, 35), isRed(25, 40.5)]).toEqual([false, false, false, false]);
});

test("it is not sent twice, and there is none of a side or a print without a capture or a size", async () => {
  const { context, printId } = await aPrintWithASheet();
  const app = createApp(context);
  const address = `/prints/${printId}/sides/front.jpg`;
  const tag = (await app.request(address)).headers.get("etag") ?? "";
  expect((await app.request(address, { headers: { "If-None-Match": tag } })).status).toBe(304);
  expect((await app.request(`/prints/${printId}/sides/back.jpg`)).status).toBe(404);
  expect((await app.request(`/prints/${printId}/sides/left.jpg`)).status).toBe(404);
  const without = keptPrint(context.db, "1978.002");
  expect((await app.request(`/prints/${without}/sides/front.jpg`)).status).toBe(404);
});

test("an outline that a person set is shown at once, and where two were found it says which", async () => {
  const { context, printId, captureId } = await aPrintWithASheet();
  const found = findMeasureSet(context.db, captureId, "alone")?.basis.found as unknown[];
  replaceReadings(context.db, captureId, "alone", { readings: [], basis: { found: [...found, ...found] }, durationMs: null });
  const app = createApp(context);
  const address = `/prints/${printId}/sides/front.jpg`;
  expect((await app.request(address)).status).toBe(404);
  // 20 px in the frame of 500 px, from the sheet's left: 4 mm of 80, so that the red square begins at 16 mm
  const [left, right, top, bottom] = [70, 470, 40, 340];
  setSaidOutline(context.db, captureId, {
    topLeft: { x: left, y: top },
    topRight: { x: right, y: top },
    bottomRight: { x: right, y: bottom },
    bottomLeft: { x: left, y: bottom },
  });
  const { data, info } = await sharp(await (await app.request(address)).arrayBuffer())
    .raw()
    .toBuffer({ resolveWithObject: true });
  const greenAt = (xMm: number) => data[(Math.round(35 * 12) * info.width + Math.round(xMm * 12)) * info.channels + 1] as number;
  expect([greenAt(15.5), greenAt(16.5), greenAt(25.5), greenAt(26.5)].map((green) => green < 90)).toEqual([false, true, true, false]);
});

test("a capture's own sheet is straightened on the print's mm grid and shown on its page, and each sheet of a bed by its number", async () => {
  const { context, captureId } = await aPrintWithASheet();
  const app = createApp(context);
  const sizeOf = async (part: number) => {
    const { width, height } = await sharp(await (await app.request(`/captures/${captureId}/sheets/${part}.jpg`)).arrayBuffer()).metadata();
    return [width, height];
  };
  expect(await sizeOf(1)).toEqual([960, 720]);
  expect((await app.request(`/captures/${captureId}/sheets/2.jpg`)).status).toBe(404);
  expect(await (await app.request(`/captures/${captureId}`)).text()).toContain(`src="/captures/${captureId}/sheets/1.jpg"`);
  const found = findMeasureSet(context.db, captureId, "alone")?.basis.found as unknown[];
  replaceReadings(context.db, captureId, "alone", { readings: [], basis: { found: [...found, ...found] }, durationMs: null });
  // nobody has said which of both the print is: each is shown as it is seen, 400 px across and 300 down, with its longer side 1000 px
  expect(await sizeOf(2)).toEqual([1000, 750]);
  expect(await (await app.request(`/captures/${captureId}`)).text()).not.toContain("/sheets/1.jpg");
});

test("a sheet that could not be straightened in time is said so, and not kept by a browser as the answer", async () => {
  const { context, captureId } = await aPrintWithASheet();
  const running = vi.spyOn(Thread.prototype, "run").mockResolvedValue({ fault: "it took longer than 300 seconds" });
  const answer = await createApp(context).request(`/captures/${captureId}/sheets/1.png`);
  running.mockRestore();
  expect([answer.status, answer.headers.get("etag")]).toEqual([503, null]);
  expect(await answer.text()).toContain("it took too long");
});

test("a capture's sheet opens with all that was resolved: as many pixels as it has in the original, once, under a name of its own", async () => {
  const { context, captureId } = await aPrintWithASheet();
  const app = createApp(context);
  const address = `/captures/${captureId}/sheets/1.png`;
  const answer = await app.request(address);
  expect([answer.status, answer.headers.get("content-type")]).toEqual([200, "image/png"]);
  expect(answer.headers.get("content-disposition")).toMatch(/^inline; filename=.*straightened\.png/);
  // 80 × 60 mm seen on 400 × 300 px: 5 px a mm, 127 ppi
  const { width, height, density } = await sharp(await answer.arrayBuffer()).metadata();
  expect([width, height, density]).toEqual([400, 300, 127]);
  const tag = answer.headers.get("etag") ?? "";
  expect((await app.request(address, { headers: { "If-None-Match": tag } })).status).toBe(304);
  expect((await app.request(`/captures/${captureId}/sheets/2.png`)).status).toBe(404);
  const page = await (await app.request(`/captures/${captureId}`)).text();
  expect(page).toContain(`<a href="${address}">Open it with all the capture resolved (400 × 300 px, 127 ppi)</a>`);
}, 60_000);

test("typed places come back numbered on the print page, in the form as typed, and as annotations; beyond the sheet they are refused", async () => {
  const { context, printId } = await aPrintWithASheet();
  const app = createApp(context);
  const save = (regions: string) =>
    app.request(`/prints/${printId}/survey`, {
      method: "POST",
      headers: { "Sec-Fetch-Site": "same-origin" },
      body: new URLSearchParams({
        surveyedOn: "2026-11-25",
        lookedAtBy: "Łucja Berg",
        "found.0.term": "mould",
        "found.0.severity": "2",
        "found.0.extent": "2-to-10",
        "found.0.regions": regions,
      }),
    });
  const refused = await save("70,50 90,58");
  expect(refused.status).toBe(422);
  const again = await refused.text();
  expect(again).toContain("80 mm wide and 60 mm high");
  expect(again).toContain("70,50 90,58");

  expect((await save("20,30 30,40\n0,0 10,0 10,8")).status).toBe(303);
  const page = await (await app.request(`/prints/${printId}`)).text();
  expect(page).toContain('points="20,30 30,30 30,40 20,40"');
  expect(page).toContain("20 mm from the left, 30 mm from the top, 10 × 10 mm");
  expect(page).toContain("2 to 10 % of this side");
  expect(await (await app.request(`/prints/${printId}/survey`)).text()).toContain(">20,30 30,40\n0,0 10,0 10,8</textarea>");

  const sent = await app.request(`/prints/${printId}/annotations.json`);
  expect(sent.headers.get("content-type")).toContain("application/ld+json");
  const { items } = (await sent.json()) as { items: { creator: unknown; target: { source: string; selector: { value: string } }[] }[] };
  expect(items).toHaveLength(1);
  expect(items[0]?.creator).toEqual({ type: "Person", name: "Łucja Berg" });
  expect(items[0]?.target.map(({ selector }) => selector.value)[0]).toBe("xywh=pixel:240,360,120,120");
  expect((await app.request(new URL(items[0]?.target[0]?.source ?? "").pathname)).status).toBe(200);
});
