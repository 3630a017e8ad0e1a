import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import type { Hono } from "hono";
import { expect, test, vi } from "vitest";
import { findPurpose } from "#drizzle/queries/aims.ts";
import { judgedByEye, listPairsToCheck } from "#drizzle/queries/eye-checks.ts";
import { findMeasureSet, replaceReadings } from "#drizzle/queries/measures.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { drawEyeCheck } from "#server/actions/draw-eye-check.ts";
import { layingEnded, laySideOfPrint } from "#server/actions/lay-side-of-print.ts";
import { createApp } from "#server/app.ts";
import { laidFolder } from "#server/collection-folder.ts";
import type { Context } from "#server/context.ts";
import { sharp } from "#server/images/policy.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { SMALL } from "../../fixtures/captured-sheet.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { dotted, drawCapture, keepCapture } from "../../fixtures/laid-captures.ts";

/** Readings by which the rule can choose, in the place of those drawn for laying alone. */
function readAs(context: Context, captureId: number, samplingPpi: number): void {
  const { basis } = findMeasureSet(context.db, captureId, "alone") ?? { basis: {} };
  const readings = Object.entries({ ...GOOD_ENOUGH, samplingPpi }).map(([name, value]) => ({
    name: name as never,
    value,
    reliability: "firm" as const,
  }));
  replaceReadings(context.db, captureId, "alone", { readings, basis, durationMs: null });
}

/** A print with two captures, of which the rule prefers the finer by its sampling. */
async function twoCaptures() {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001", {
    sheetWidthMm: SMALL.widthMm,
    sheetHeightMm: SMALL.heightMm,
    title: "Weir in winter",
  });
  const fine = await keepCapture(
    context,
    printId,
    drawCapture({ seed: 61, noiseSeed: 4, turnDeg: 2, ppi: 120, defects: [dotted] }),
    "fine-scan.png",
  );
  const coarse = await keepCapture(
    context,
    printId,
    drawCapture({ seed: 61, noiseSeed: 5, turnDeg: -2, ppi: 100, defects: [dotted] }),
    "coarse-phone.png",
  );
  readAs(context, fine, 300);
  readAs(context, coarse, 200);
  chooseMasters(context);
  const app = createApp(context);
  return { context, app, ...through(app), printId, fine, coarse };
}

const through = (app: Hono) => ({
  send: (address: string, fields: Record<string, string>) =>
    app.request(address, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) }),
  get: async (address: string) => (await app.request(address)).text(),
});

/** Mean difference of two pictures, in codes. */
const apart = (one: Buffer, other: Buffer) =>
  one.reduce((total, code, index) => total + Math.abs(code - (other[index] as number)), 0) / one.length;

const SCREEN = { purposeKey: "screen" };

/** Laying goes on in a thread of its own, which takes its time on a machine that has much else to do. */
const PATIENCE = { timeout: 180_000 };

test(
  "two captures are shown at one scale with nothing that tells which is which; the answer is kept, and told only then",
  PATIENCE,
  async () => {
    const { context, app, send, get, fine, coarse, printId } = await twoCaptures();
    const asked = await send("/eye", SCREEN);
    const address = asked.headers.get("location") ?? "";
    expect(address).toMatch(/^\/eye\/[0-9a-f-]{36}$/);
    await layingEnded();
    const page = await get(address);
    for (const told of [
      "fine-scan",
      "coarse-phone",
      "1978.001",
      "Weir",
      `/captures/`,
      `/prints/${printId}`,
      "sampling",
      "ppi",
      ".png",
      "rule",
    ])
      expect(page, told).not.toContain(told);
    expect(page).toContain("Left is better");

    const bytes = async (name: string) => Buffer.from(await (await app.request(`${address}/${name}`)).arrayBuffer());
    const pictures = await Promise.all(
      ["left.jpg", "right.jpg", "left-5.jpg", "right-5.jpg", "left-1.jpg", "right-9.jpg"].map((name) => app.request(`${address}/${name}`)),
    );
    for (const picture of pictures) {
      expect(picture.headers.get("content-type")).toBe("image/jpeg");
      expect(picture.headers.get("etag")).toBeNull();
      expect(picture.headers.get("last-modified")).toBeNull();
      expect(picture.headers.get("content-disposition")).toBeNull();
      expect(picture.headers.get("cache-control")).toContain("no-store");
    }
    const facts = await Promise.all(pictures.map(async (picture) => sharp(Buffer.from(await picture.arrayBuffer())).metadata()));
    for (const { exif, xmp, comments } of facts) expect([exif, xmp, comments?.length ?? 0]).toEqual([undefined, undefined, 0]);
    expect(facts.slice(2).map(({ width, height }) => `${width} ${height}`)).toEqual(Array(4).fill("640 640"));

    // the pictures are those of the captures drawn, and the close-ups show the same millimetres of both
    const { leftId, side } = context.db.$client.prepare("select left_id as leftId, side from eye_checks").get() as {
      leftId: number;
      side: "front";
    };
    const print = findPrint(context.db, printId);
    const laying = print && (await laySideOfPrint(context, print, side));
    if (!laying || !("basis" in laying)) throw new Error("not laid");
    const whole = readFileSync(path.join(laidFolder(context.folder, { printId, side }, laying.basis), `${leftId}.jpg`));
    expect(Buffer.compare(await bytes("left.jpg"), whole)).toBe(0);
    const small = async (name: string) =>
      sharp(await bytes(name))
        .greyscale()
        .resize(80, 80)
        .raw()
        .toBuffer();
    const [left, right, elsewhere] = await Promise.all([small("left-5.jpg"), small("right-5.jpg"), small("right-1.jpg")]);
    const mean = left.reduce((total, code) => total + code, 0) / left.length;
    const spread = apart(left, Buffer.alloc(left.length, mean));
    expect(spread, "the close-up shows something").toBeGreaterThan(2);
    expect(apart(left, right)).toBeLessThan(spread / 2);
    expect(apart(left, elsewhere)).toBeGreaterThan(2 * apart(left, right));

    await send(address, { answer: "left" });
    const told = await get(address);
    expect(told).toContain("You found the left one better");
    expect(told).toContain("fine-scan.png");
    expect(told).toContain(`href="/captures/${coarse}"`);
    expect(told).toContain("above all for its sampling");
    const check = context.db.$client.prepare("select left_id as leftId, rule_id as ruleId, decisive from eye_checks").get() as Record<
      string,
      unknown
    >;
    expect(check).toMatchObject({ ruleId: fine, decisive: "samplingPpi" });
    expect(told).toContain(check.leftId === fine ? "agree. The answer is kept" : "differ. The answer is kept");
    // a second answer changes nothing
    await send(address, { answer: "right" });
    expect(await get(address)).toContain("You found the left one better");
    const judged = judgedByEye(context.db, findPurpose(context.db, "screen")?.id ?? 0);
    expect(judged).toEqual([{ agrees: check.leftId === fine, decisive: "samplingPpi", closeCall: false }]);
    expect(await get("/purposes/screen")).toMatch(/The rule and the eye agree: in [01] of 1 pair/);
  },
);

test(
  "either stands left as the draw says, what was drawn comes up again until it is answered, and is not drawn again then",
  PATIENCE,
  async () => {
    const context = emptyCollection();
    const printId = keptPrint(context.db, "1978.002");
    const coarse = measuredCapture(context.db, printId, GOOD_ENOUGH);
    const fine = measuredCapture(context.db, printId, { ...GOOD_ENOUGH, samplingPpi: 500 });
    chooseMasters(context);
    const draw = async (drawn: number, purposeKey: string) => {
      const outcome = await drawEyeCheck(context, { purposeKey, below: (most) => Math.min(drawn, most - 1) });
      if (!outcome.ok) throw new Error("nothing drawn");
      return outcome.value;
    };
    // both before it can be known that these files, which are not there, cannot be laid
    const [first, other] = await Promise.all([draw(0, "screen"), draw(1, "reproduction")]);
    expect([first.leftId, first.rightId, first.ruleId]).toEqual([fine, coarse, fine]);
    expect([other.leftId, other.rightId, other.ruleId]).toEqual([coarse, fine, fine]);
    expect((await draw(1, "screen")).address).toBe(first.address);
    await layingEnded();
    const { send, get } = through(createApp(context));
    expect(await get(`/eye/${first.address}`)).toContain("This pair cannot be shown");
    await send(`/eye/${first.address}`, { answer: "not-shown" });
    expect(await drawEyeCheck(context, SCREEN)).toMatchObject({ ok: false });
    expect(judgedByEye(context.db, first.purposeId)).toEqual([]);
  },
);

test("a pair of which one is not laid, or whose print is in the bin, can be left out and shows no picture", PATIENCE, async () => {
  const { context, app, send, get, printId, fine, coarse } = await twoCaptures();
  // the master, whose file is not there; the others of its side are laid without it
  measuredCapture(context.db, printId, { ...GOOD_ENOUGH, samplingPpi: 500 }, { fileName: "lost.tif" });
  chooseMasters(context);
  const address = (await send("/eye", SCREEN)).headers.get("location") ?? "";
  await layingEnded();
  const page = await get(address);
  expect(page).toContain("This pair cannot be shown");
  expect(page).not.toContain("Left is better");
  for (const name of ["left.jpg", "right.jpg", "left-5.jpg"]) expect((await app.request(`${address}/${name}`)).status).toBe(404);
  await send(address, { answer: "not-shown" });
  expect((await send("/eye", SCREEN)).headers.get("location")).toBe("/purposes/screen?done=eye-none#by-eye");

  context.db.$client
    .prepare("update eye_checks set answer = null, answered_at = null, left_id = ?, right_id = ?, rule_id = ?")
    .run(coarse, fine, fine);
  expect(await get(address), "both of these are laid").toContain("Left is better");

  context.db.$client.prepare("update prints set binned_at = '2026-01-01T00:00:00Z'").run();
  expect(await get(address)).toContain("This pair cannot be shown");
  expect((await app.request(`${address}/left.jpg`)).status).toBe(404);

  context.db.$client.prepare("update prints set binned_at = null").run();
  // one that is laid by its corners alone may show another place: it is neither shown nor drawn
  const laidFolders = readdirSync(path.join(context.folder.derived, "laid"));
  for (const name of laidFolders) {
    const file = path.join(context.folder.derived, "laid", name, "laid.json");
    const laid = JSON.parse(readFileSync(file, "utf8"));
    for (const each of laid.captures) if (each.captureId === coarse) each.laidBy = "corners";
    writeFileSync(file, JSON.stringify(laid));
  }
  const unlike = await get(address);
  expect(unlike).toContain("is counted neither for the rule nor against it");
  expect(unlike).not.toContain("Left is better");
  expect((await app.request(`${address}/left.jpg`)).status).toBe(404);
  context.db.$client.prepare("delete from eye_checks").run();
  context.db.$client
    .prepare("update choices set explanation = json_set(explanation, '$.masterId', ?, '$.runnerUpId', ?)")
    .run(fine, coarse);
  expect(await drawEyeCheck(context, SCREEN)).toMatchObject({ ok: false });
});

test("there is nothing to draw where a side has one capture good enough, and a strange address shows nothing", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.002");
  measuredCapture(context.db, printId, GOOD_ENOUGH);
  chooseMasters(context);
  expect(await drawEyeCheck(context, SCREEN)).toMatchObject({ ok: false });
  const app = createApp(context);
  for (const address of ["/eye/00000000-0000-4000-8000-000000000000", "/eye/1", "/eye/1/left.jpg", "/eye/1/left-5.jpg"])
    expect((await app.request(address)).status).toBe(404);
  expect((await through(app).send("/eye", { purposeKey: "no-such" })).headers.get("location")).toBe("/purposes?done=eye-none");
});

test(
  "a pair that the eye found otherwise stays on the list of what is too close to call, one that it found alike does not",
  PATIENCE,
  async () => {
    const context = emptyCollection();
    const printId = keptPrint(context.db, "1978.003");
    const [one] = ["one.tif", "other.tif"].map((fileName) => measuredCapture(context.db, printId, GOOD_ENOUGH, { fileName })) as [
      number,
      number,
    ];
    chooseMasters(context);
    const app = createApp(context);
    const { send, get } = through(app);
    expect(await get("/choices")).toContain("Too close to call (3)");
    const { id } = context.db.$client
      .prepare("select c.id from choices c join purposes p on p.id = c.purpose_id where p.key = 'screen' and superseded_at is null")
      .get() as { id: number };
    const ask = () => send("/eye", { ...SCREEN, choiceId: String(id) });
    const address = (await ask()).headers.get("location") ?? "";
    const { leftId } = context.db.$client.prepare("select left_id as leftId from eye_checks").get() as { leftId: number };
    await send(address, { answer: leftId === one ? "right" : "left" });
    expect(await get("/choices")).toContain("By eye, blind, the other one was found better");
    expect(await get(address)).toContain("Make other.tif the master");
    context.db.$client.prepare("update eye_checks set answer = 'cannot-tell'").run();
    expect(await get("/choices")).toContain("Too close to call (2)");
    // judged once is judged: the same pair is not drawn again for this purpose
    expect((await ask()).headers.get("location")).toBe("/purposes/screen?done=eye-none#by-eye");
    await layingEnded();
  },
);

test("what a person has judged is gone through once, not once for each pair", () => {
  const { db, userId } = emptyCollection();
  const prepared = vi.spyOn(db.$client, "prepare");
  listPairsToCheck(db, { purposeId: 1, userId });
  const asked = prepared.mock.calls[0]?.[0] ?? "";
  const plan = db.$client.prepare(`explain query plan ${asked}`).all(...Array(asked.split("?").length - 1).fill(1)) as {
    id: number;
    parent: number;
    detail: string;
  }[];
  const answers = plan.find(({ detail }) => /^(SCAN|SEARCH) e\b/.test(detail));
  expect(plan.find(({ id }) => id === answers?.parent)?.detail).toMatch(/^LIST SUBQUERY/);
});
