import type { Hono } from "hono";
import { expect, test } from "vitest";
import { setUpInput } from "#domain/capture/set-up.ts";
import { findCapture, insertCapture, listCapturesOfPrint, listTray } from "#drizzle/queries/captures.ts";
import { historyOfPrint } from "#drizzle/queries/events.ts";
import { replaceReadings } from "#drizzle/queries/measures.ts";
import { workProgress } from "#drizzle/queries/work-progress.ts";
import { createSetUp } from "#server/actions/create-set-up.ts";
import { createApp } from "#server/app.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const send = (app: Hono, path: string, fields: Record<string, string>) =>
  app.request(path, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) });

const square = (left: number, top: number, size: number) => ({
  topLeft: { x: left, y: top },
  topRight: { x: left + size, y: top },
  bottomRight: { x: left + size, y: top + size },
  bottomLeft: { x: left, y: top + size },
});

const ALL_SEEN = { top: "seen", right: "seen", bottom: "seen", left: "seen" };

/** A bed in the tray on which two prints were found, and two prints they may belong to. */
function bedInTray() {
  const context = emptyCollection();
  const [one, two] = [keptPrint(context.db, "1978.001"), keptPrint(context.db, "1978.002")];
  const bed = measuredCapture(context.db, null, {}, { fileName: "bed.tif", method: "flatbed-scanner" });
  const sheets = [square(5, 5, 30), square(50, 50, 40)];
  const basis = { outlines: sheets, found: sheets.map((sheet) => ({ sheet, image: null, sides: ALL_SEEN })) };
  replaceReadings(context.db, bed, "alone", { readings: [], basis, durationMs: null });
  return { context, app: createApp(context), bed, one, two };
}

test("a capture in the tray is assigned by number, with its side, and waits to be measured anew", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  const captureId = measuredCapture(context.db, null, {}, { fileName: "scan.tif" });
  const answer = await send(createApp(context), `/captures/${captureId}/print`, { print: " 1978.001 ", side: "back" });
  expect(answer.status).toBe(303);
  expect(findCapture(context.db, captureId)).toMatchObject({ printId, side: "back" });
  expect(workProgress(context.db).waiting).toBeGreaterThan(0);
});

test.each([
  ["1978.999", "There is no print with the number 1978.999."],
  ["1978.009", "Print 1978.009 lies in the bin."],
  ["  ", "No number was given."],
])("a capture assigned to “%s” stays in the tray with what was typed and what to do", async (number, happened) => {
  const context = emptyCollection();
  keptPrint(context.db, "1978.009", { binnedAt: "2026-01-01T00:00:00.000Z" });
  const captureId = measuredCapture(context.db, null, {}, { fileName: "scan.tif" });
  const answer = await send(createApp(context), `/captures/${captureId}/print`, { print: number, side: "back" });
  const html = await answer.text();
  expect(answer.status).toBe(422);
  expect(html).toContain(happened);
  expect(html).toContain(`value="${number}"`);
  expect(html).toMatch(/<option value="back" selected="">/);
  expect(listTray(context.db)).toHaveLength(1);
});

test("a bed is divided into its prints, and a part left open goes into the tray by itself", async () => {
  const { context, app, bed, two } = bedInTray();
  expect(await (await app.request("/tray")).text()).toContain("seems to hold 2 prints");
  const answer = await send(app, `/captures/${bed}/divide`, { part1: "", part2: "1978.002" });
  expect(answer.status).toBe(303);
  expect(findCapture(context.db, bed)).toMatchObject({ divided: true });
  const [open, ...others] = listTray(context.db);
  expect(others).toEqual([]);
  expect(open?.region).toMatchObject({ left: expect.any(Number), width: expect.any(Number) });
  const ofTwo = context.db.$client.prepare("select region from captures where print_id = ?").all(two);
  expect(ofTwo).toHaveLength(1);
});

const cornersOf = (part: number, { topLeft, topRight, bottomRight, bottomLeft }: ReturnType<typeof square>) =>
  Object.fromEntries(
    Object.entries({ topLeft, topRight, bottomRight, bottomLeft }).flatMap(([corner, { x, y }]) => [
      [`part${part}-${corner}-x`, x.toFixed(1)],
      [`part${part}-${corner}-y`, y.toFixed(1)],
    ]),
  );

test("corners that a person moved are kept with the part as theirs, in its own pixels; those left alone are found anew", async () => {
  const { context, app, bed } = bedInTray();
  const answer = await send(app, `/captures/${bed}/divide`, {
    ...cornersOf(1, square(5, 5, 30)),
    ...cornersOf(2, square(52, 50, 40)),
    part1: "1978.001",
    part2: "1978.002",
  });
  expect(answer.status).toBe(303);
  const rows = context.db.$client.prepare("select region, said_outline as said from captures where print_id is not null order by id").all();
  const [asFound, moved] = rows as { region: string; said: string | null }[];
  expect(asFound?.said).toBe(null);
  const region = JSON.parse(moved?.region ?? "{}");
  // its margin is 3 % of 40 px, and 52 - 1.2 is 50.8
  expect(region).toMatchObject({ left: 50, top: 48 });
  expect(JSON.parse(moved?.said ?? "{}")).toEqual(square(2, 2, 40));
});

test("a part can be added without a script, and what was typed stays; drawn, it stands where it was drawn", async () => {
  const { context, app, bed } = bedInTray();
  const typed = { ...cornersOf(1, square(5, 5, 30)), ...cornersOf(2, square(50, 50, 40)), part1: "typed before" };
  const html = await (await send(app, `/captures/${bed}/divide`, { ...typed, add: "part", drawn: "60 10 90 40" })).text();
  expect(html).toContain('value="typed before"');
  expect(html).toMatch(/name="part3-topLeft-x" value="60.0"/);
  expect(html).toMatch(/name="part3-bottomRight-y" value="40.0"/);
  const middle = await (await send(app, `/captures/${bed}/divide`, { ...typed, add: "part" })).text();
  expect(middle).toMatch(/name="part3-topLeft-x" value="33.3"/);
  await send(app, `/captures/${bed}/divide`, { ...typed, part1: "", leave2: "on", ...cornersOf(3, square(60, 10, 30)) });
  expect(listTray(context.db).map(({ saidOutline }) => saidOutline === null)).toEqual([true, false]);
});

test.each([
  ["outside the picture", square(90, 5, 30), "A corner lies outside the picture."],
  ["crossed", { ...square(5, 5, 30), topLeft: { x: 35, y: 5 }, topRight: { x: 5, y: 5 } }, "The sides cross each other"],
  ["too small", square(5, 5, 4), "The outline is too small."],
])("corners that are %s are refused in words, and nothing typed is lost", async (_, corners, happened) => {
  const { context, app, bed } = bedInTray();
  const answer = await send(app, `/captures/${bed}/divide`, { ...cornersOf(1, corners), part1: "1978.001" });
  expect(answer.status).toBe(422);
  const html = await answer.text();
  expect(html).toContain(happened);
  expect(html).toContain(`name="part1-topLeft-x" value="${corners.topLeft.x.toFixed(1)}"`);
  expect(html).toContain('value="1978.001"');
  expect(findCapture(context.db, bed)).toMatchObject({ divided: false });
});

test("a corner that is no number is refused, and what was typed for it stays", async () => {
  const { app, bed } = bedInTray();
  const answer = await send(app, `/captures/${bed}/divide`, { ...cornersOf(1, square(5, 5, 30)), "part1-topLeft-x": "about ten" });
  expect(answer.status).toBe(422);
  const html = await answer.text();
  expect(html).toContain("No number is written for top left across. Write pixels");
  expect(html.match(/aria-invalid="true"/g)).toHaveLength(1);
  expect(html).toContain('value="about ten"');
});

test("an outline that a person set is kept, wins, is measured anew, and can be given back", async () => {
  const { context, app, bed } = bedInTray();
  const waiting = workProgress(context.db).waiting;
  expect((await send(app, `/captures/${bed}/outline`, cornersOf(1, square(6, 7, 50)))).status).toBe(303);
  expect(findCapture(context.db, bed)?.saidOutline).toEqual(square(6, 7, 50));
  expect(workProgress(context.db).waiting).toBe(waiting + 1);
  const html = await (await app.request(`/captures/${bed}/outline`)).text();
  expect(html).toContain("Set by a person.");
  expect(html).toContain('name="part1-topLeft-y" value="7.0"');
  await send(app, `/captures/${bed}/outline/reset`, {});
  expect(findCapture(context.db, bed)?.saidOutline).toBe(null);
  const refused = await send(app, `/captures/${bed}/outline`, cornersOf(1, square(90, 5, 30)));
  expect(refused.status).toBe(422);
  expect(await refused.text()).toContain("A corner lies outside the picture.");
});

test("what was found on a bed and is no print is left out, whatever number was typed for it", async () => {
  const { context, app, bed, two } = bedInTray();
  const answer = await send(app, `/captures/${bed}/divide`, { part1: "no such number", leave1: "on", part2: "1978.002" });
  expect(answer.status).toBe(303);
  expect(listTray(context.db)).toEqual([]);
  expect(listCapturesOfPrint(context.db, two)).toHaveLength(1);
});

test("a number that is wrong for one part refuses the whole division and keeps every number typed", async () => {
  const { context, app, bed } = bedInTray();
  const answer = await send(app, `/captures/${bed}/divide`, { part1: "1978.001", part2: "1987.002" });
  const html = await answer.text();
  expect(answer.status).toBe(422);
  expect(html).toContain("There is no print with the number 1987.002.");
  expect(html).toContain('value="1978.001"');
  expect(html).toContain('value="1987.002"');
  expect(findCapture(context.db, bed)?.divided).toBe(false);
});

test("a capture that somebody has sorted meanwhile is said so instead of being moved", async () => {
  const context = emptyCollection();
  const [one] = [keptPrint(context.db, "1978.001"), keptPrint(context.db, "1978.002")];
  const captureId = measuredCapture(context.db, one, {}, { fileName: "scan.tif" });
  const answer = await send(createApp(context), `/captures/${captureId}/print`, { print: "1978.002", side: "front" });
  expect(answer.headers.get("location")).toBe("/tray?done=already-sorted");
  expect(findCapture(context.db, captureId)?.printId).toBe(one);
});

test("a capture's page shows its measures with their meaning, the reason of what is absent, and its file", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  const captureId = measuredCapture(
    context.db,
    printId,
    { ...GOOD_ENOUGH, noiseDeltaL: "the border is too narrow" },
    { fileName: "stand.tif" },
  );
  const html = await (await createApp(context).request(`/captures/${captureId}`)).text();
  expect(html).toContain("450 ppi");
  expect(html).toContain("Pixels per inch of the print itself");
  expect(html).toContain("Not read: the border is too narrow");
  expect(html).toContain("Hashed when it was taken in; not checked since");
  expect(html).toContain(`href="/captures/${captureId}/original"`);
});

test("print, side, method and set-up of a capture can be corrected, and a set-up alone brings its method", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  const made = createSetUp(context, setUpInput.parse({ name: "Stand", method: "copy-stand-camera" }));
  if (!made.ok) throw new Error("refused");
  const captureId = measuredCapture(context.db, null, {}, { fileName: "stand.tif" });
  const app = createApp(context);
  const answer = await send(app, `/captures/${captureId}`, { print: "1978.001", side: "back", method: "", setUp: String(made.value.id) });
  expect(answer.status).toBe(303);
  expect(findCapture(context.db, captureId)).toMatchObject({
    printId,
    side: "back",
    method: "copy-stand-camera",
    methodBasis: "said",
    setUpId: made.value.id,
  });
  await send(app, `/captures/${captureId}`, { print: "", side: "back", method: "copy-stand-camera", setUp: "" });
  expect(findCapture(context.db, captureId)).toMatchObject({ printId: null, setUpId: null });
});

test("a guessed method stays a guess until somebody says otherwise, and may be taken back", async () => {
  const context = emptyCollection();
  const captureId = measuredCapture(context.db, null, {}, { method: "phone-camera" });
  context.db.$client.prepare("update captures set method_basis = 'guessed' where id = ?").run(captureId);
  const app = createApp(context);
  const capture = () => findCapture(context.db, captureId);
  await send(app, `/captures/${captureId}`, { print: "", side: "back", method: "phone-camera", setUp: "" });
  expect(capture()).toMatchObject({ side: "back", method: "phone-camera", methodBasis: "guessed" });
  await send(app, `/captures/${captureId}`, { print: "", side: "back", method: "", setUp: "" });
  expect(capture()).toMatchObject({ method: null, methodBasis: null });
});

test("a method that its set-up is not one of is refused at its field, and nothing is changed", async () => {
  const context = emptyCollection();
  const made = createSetUp(context, setUpInput.parse({ name: "Stand", method: "copy-stand-camera" }));
  if (!made.ok) throw new Error("refused");
  const captureId = measuredCapture(context.db, null, {});
  const form = { print: "", side: "front", method: "phone-camera", setUp: String(made.value.id) };
  const answer = await send(createApp(context), `/captures/${captureId}`, form);
  expect(answer.status).toBe(422);
  expect(await answer.text()).toContain("is one of a camera on copy stand");
  expect(findCapture(context.db, captureId)).toMatchObject({ method: null, setUpId: null });
});

test("saving a capture unchanged leaves no line in the history", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  const captureId = measuredCapture(context.db, printId, {}, { fileName: "stand.tif", method: "phone-camera" });
  const app = createApp(context);
  await send(app, `/captures/${captureId}`, { print: "1978.001", side: "front", method: "phone-camera", setUp: "" });
  expect(historyOfPrint(context.db, printId)).toEqual([]);
  await send(app, `/captures/${captureId}`, { print: "1978.001", side: "back", method: "phone-camera", setUp: "" });
  expect(await (await app.request(`/prints/${printId}`)).text()).toContain("stand.tif: it shows the back.");
});

test("a strange method is refused at its field and nothing is changed", async () => {
  const context = emptyCollection();
  const captureId = measuredCapture(context.db, null, {}, { fileName: "stand.tif" });
  const answer = await send(createApp(context), `/captures/${captureId}`, { print: "", side: "front", method: "drum-scanner", setUp: "" });
  expect(answer.status).toBe(422);
  expect(await answer.text()).toContain("Choose one of the methods in the list.");
  expect(findCapture(context.db, captureId)?.method).toBe(null);
});

test("a part of a bed is drawn at its own size, not the bed's", async () => {
  const { context, app, bed, one } = bedInTray();
  const { originalId } = findCapture(context.db, bed) ?? { originalId: 0 };
  const region = { left: 5, top: 5, width: 30, height: 31 };
  const part = insertCapture(context.db, { originalId, printId: one, region });
  const html = await (await app.request(`/captures/${part.id}`)).text();
  expect(html).toMatch(/width="30" height="31"/);
});

test("a capture is put away with a reason and taken back from the bin, and its file is kept all the while", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  const printId = keptPrint(context.db, "1978.001");
  const captureId = measuredCapture(context.db, printId, GOOD_ENOUGH, { fileName: "holiday.tif" });
  const refused = await send(app, `/captures/${captureId}/put-away`, { reason: " " });
  expect(refused.status).toBe(422);
  expect(await refused.text()).toContain("Say why, so that the next keeper understands.");
  expect(listCapturesOfPrint(context.db, printId)).toHaveLength(1);

  const away = await send(app, `/captures/${captureId}/put-away`, { reason: "It shows <another> print." });
  expect(away.headers.get("location")).toBe(`/captures/${captureId}?done=capture-put-away`);
  const page = await (await app.request(`/captures/${captureId}`)).text();
  expect(page).toContain("It shows &lt;another&gt; print.");
  expect(page).not.toContain("Correct what is said of it");
  expect(await (await app.request("/bin")).text()).toMatch(/1978\.001[\s\S]*It shows &lt;another&gt; print\./);
  expect(await (await app.request("/prints/1")).text()).toContain(
    "holiday.tif was put away. Reason given: It shows &lt;another&gt; print.",
  );
  expect(findCapture(context.db, captureId)?.original.originalName).toBe("holiday.tif");

  const back = await send(app, `/captures/${captureId}/take-back`, {});
  expect(back.status).toBe(303);
  expect(listCapturesOfPrint(context.db, printId)).toHaveLength(1);
  expect(await (await app.request("/bin")).text()).not.toContain("It shows &lt;another&gt; print.");
});
