import { expect, test } from "vitest";
import { PURPOSE_KEYS } from "#domain/aim/aim.ts";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { currentAims } from "#drizzle/queries/aims.ts";
import { setCapturePrint } from "#drizzle/queries/captures.ts";
import { listChoicesOfPrint } from "#drizzle/queries/choices.ts";
import { historyOfPrint } from "#drizzle/queries/events.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { ensurePurposes } from "#server/actions/ensure-purposes.ts";
import { overruleMaster } from "#server/actions/overrule-master.ts";
import { releaseMaster } from "#server/actions/release-master.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture, reread } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const rowsOfChoices = (context: ReturnType<typeof emptyCollection>) =>
  context.db.$client.prepare("select count(*) from choices").pluck().get() as number;

/** Every choice ever made for the front of a print and a purpose, newest first. */
const choicesEver = (context: ReturnType<typeof emptyCollection>, printId: number, purposeId: number | undefined) =>
  context.db.$client
    .prepare(
      `select aim_id as aimId, capture_id as captureId, superseded_at as supersededAt from choices
       where print_id = ? and side = 'front' and purpose_id = ? order by id desc`,
    )
    .all(printId, purposeId ?? 0) as { aimId: number; captureId: number | null; supersededAt: string | null }[];

/** One print with a good copy-stand TIFF and a phone JPEG. */
function twoCaptures() {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  const tiff = measuredCapture(context.db, printId, GOOD_ENOUGH, { fileName: "stand.tif" });
  const jpeg = measuredCapture(
    context.db,
    printId,
    { ...GOOD_ENOUGH, lossless: 0, effectiveBitDepth: 8, samplingPpi: 310 },
    { fileName: "phone.jpg" },
  );
  const preservation = () => listChoicesOfPrint(context.db, printId).find((choice) => choice.purpose.key === "preservation-master");
  return { context, printId, tiff, jpeg, preservation };
}

const BY_HAND = { side: "front", purposeKey: "preservation-master", reason: "The other file shows the fold." } as const;

test("purposes and aims are there once, however often they are asked for", () => {
  const context = emptyCollection();
  ensurePurposes(context);
  ensurePurposes(context);
  expect(currentAims(context.db).map((aim) => aim.purpose.key)).toEqual([...PURPOSE_KEYS]);
  const kept = currentAims(context.db)[0]?.limits.find((limit) => limit.measure === "samplingPpi");
  expect(kept).toMatchObject({ requiredAtLeast: 392, provedBy: "print", sourceStatus: "standard" });
});

/** The ready-made aims of a later program, which asks more pixels of a preservation master. */
const STRICTER = PUBLISHED_AIMS.map((aim) => ({
  ...aim,
  limits: aim.limits.map((limit) =>
    aim.purpose.key === "preservation-master" && limit.measure === "samplingPpi" ? { ...limit, requiredAtLeast: 500 } : limit,
  ),
}));

const keptAims = (context: ReturnType<typeof emptyCollection>) =>
  context.db.$client
    .prepare(
      `select a.id, p.key, a.version, a.current, l.required_at_least as ppi from aims a
       join purposes p on p.id = a.purpose_id
       left join aim_limits l on l.aim_id = a.id and l.measure = 'samplingPpi'
       where p.key = 'preservation-master' order by a.id`,
    )
    .all();

test("aims that a later program words otherwise become a new version, once; the old one and the other purposes stay as they are", () => {
  const context = emptyCollection();
  const before = currentAims(context.db);
  const events = () => context.db.$client.prepare("select count(*) from events where subject = 'aim'").pluck().get();
  const told = events();
  ensurePurposes(context, STRICTER);
  ensurePurposes(context, STRICTER);
  expect(keptAims(context)).toMatchObject([
    { id: before[0]?.id, version: 1, current: 0, ppi: 392 },
    { version: 2, current: 1, ppi: 500 },
  ]);
  expect(currentAims(context.db).slice(1)).toEqual(before.slice(1));
  expect(events()).toBe(Number(told) + 1);
});

test("a choice points at the aim it was made with until masters are chosen anew; a person's choice stands beyond that", () => {
  const { context, printId, tiff, preservation } = twoCaptures();
  const other = keptPrint(context.db, "1978.002");
  const byHand = measuredCapture(context.db, other, GOOD_ENOUGH);
  chooseMasters(context);
  overruleMaster(context, { ...BY_HAND, printId: other, captureId: byHand });
  const [oldAim] = currentAims(context.db);
  ensurePurposes(context, STRICTER);
  const [newAim] = currentAims(context.db);
  expect(newAim?.id).not.toBe(oldAim?.id);
  expect(preservation()).toMatchObject({ aimId: oldAim?.id, captureId: tiff });
  chooseMasters(context);
  expect(preservation()).toMatchObject({ aimId: newAim?.id, captureId: null });
  const history = choicesEver(context, printId, oldAim?.purpose.id);
  expect(history.map((choice) => [choice.aimId, choice.captureId])).toEqual([
    [newAim?.id, null],
    [oldAim?.id, tiff],
  ]);
  expect(listChoicesOfPrint(context.db, other)[0]).toMatchObject({ aimId: oldAim?.id, captureId: byHand, decidedBy: "person" });
});

test("each purpose gets its master, with the sentence and the history line in one go", () => {
  const { context, printId, tiff, jpeg, preservation } = twoCaptures();
  const chosen = chooseMasters(context);
  expect(chosen.map((each) => [each.printId, each.purpose, each.captureId])).toEqual([
    [printId, "preservation-master", tiff],
    [printId, "reproduction", tiff],
    [printId, "screen", tiff],
  ]);
  expect(preservation()).toMatchObject({
    captureId: tiff,
    decidedBy: "rule",
    sentence: "stand.tif is the only one of 2 captures that meets every requirement.",
  });
  expect(preservation()?.explanation.verdicts.map((verdict) => verdict.captureId)).toEqual([tiff, jpeg]);
  expect(historyOfPrint(context.db, printId).filter((line) => line.subject === "choice")).toHaveLength(3);
});

test("choosing again without a change writes nothing", () => {
  const { context } = twoCaptures();
  chooseMasters(context);
  const before = rowsOfChoices(context);
  chooseMasters(context);
  expect(rowsOfChoices(context)).toBe(before);
});

test("a better capture takes over, and the earlier choice stays as history", () => {
  const { context, printId, tiff, preservation } = twoCaptures();
  chooseMasters(context);
  const better = measuredCapture(context.db, printId, { ...GOOD_ENOUGH, samplingPpi: 620 }, { fileName: "again.tif" });
  chooseMasters(context, { printIds: [printId] });
  expect(preservation()).toMatchObject({ captureId: better, runnerUpId: tiff });
  const history = choicesEver(context, printId, preservation()?.purpose.id);
  expect(history.map((choice) => [choice.captureId, choice.supersededAt === null])).toEqual([
    [better, true],
    [tiff, false],
  ]);
});

test("numbers that move without a change of master leave no line in the history", () => {
  const { context, printId, tiff } = twoCaptures();
  chooseMasters(context);
  const lines = historyOfPrint(context.db, printId).length;
  const rows = rowsOfChoices(context);
  reread(context.db, tiff, { ...GOOD_ENOUGH, samplingPpi: 460 });
  chooseMasters(context);
  expect(rowsOfChoices(context)).toBeGreaterThan(rows);
  expect(historyOfPrint(context.db, printId)).toHaveLength(lines);
});

test("a JPEG alone is the best file that exists, and no master", () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.002");
  const jpeg = measuredCapture(context.db, printId, { ...GOOD_ENOUGH, lossless: 0 }, { fileName: "phone.jpg" });
  chooseMasters(context);
  const [choice] = listChoicesOfPrint(context.db, printId);
  expect(choice).toMatchObject({
    captureId: null,
    sentence: "phone.jpg is the only capture, and cannot be master: its compression throws values away.",
  });
  expect(choice?.explanation.bestId).toBe(jpeg);
});

test("the back of a print has a master of its own", () => {
  const { context, printId, tiff } = twoCaptures();
  const back = measuredCapture(context.db, printId, GOOD_ENOUGH, { side: "back" });
  chooseMasters(context);
  const masters = listChoicesOfPrint(context.db, printId).filter((choice) => choice.purpose.key === "preservation-master");
  expect(masters.map((choice) => [choice.side, choice.captureId])).toEqual([
    ["front", tiff],
    ["back", back],
  ]);
});

test("a person's choice is never replaced by the rule, and its reason stays in the history", () => {
  const { context, printId, jpeg, preservation } = twoCaptures();
  chooseMasters(context);
  expect(overruleMaster(context, { printId, captureId: jpeg, ...BY_HAND })).toMatchObject({ ok: true });
  measuredCapture(context.db, printId, { ...GOOD_ENOUGH, samplingPpi: 900 });
  chooseMasters(context);
  expect(preservation()).toMatchObject({ captureId: jpeg, decidedBy: "person", reason: BY_HAND.reason, who: expect.any(String) });
  expect(preservation()?.sentence).toBe(
    "phone.jpg was chosen by hand; the rule would choose stand.tif. Reason given: The other file shows the fold.",
  );
  const line = historyOfPrint(context.db, printId).find((each) => each.verb === "overruled");
  expect(line?.detail).toMatchObject({ reason: BY_HAND.reason, to: jpeg });
});

test("a released choice goes back to the rule, once", () => {
  const { context, printId, tiff, jpeg, preservation } = twoCaptures();
  overruleMaster(context, { printId, captureId: jpeg, ...BY_HAND });
  expect(releaseMaster(context, { printId, ...BY_HAND })).toEqual({ ok: true, value: { captureId: tiff } });
  expect(preservation()).toMatchObject({ captureId: tiff, decidedBy: "rule", reason: null });
  expect(releaseMaster(context, { printId, ...BY_HAND })).toMatchObject({ ok: false });
});

test.each([
  ["a blank reason", { reason: "  " }, "reason"],
  ["a capture of the other side", { side: "back" as const }, "captureId"],
  ["a print that does not exist", { printId: 999 }, "printId"],
])("overruling with %s is refused at the field, and nothing changes", (_, wrong, about) => {
  const { context, printId, jpeg } = twoCaptures();
  chooseMasters(context);
  const rows = rowsOfChoices(context);
  expect(overruleMaster(context, { printId, captureId: jpeg, ...BY_HAND, ...wrong })).toMatchObject({ ok: false, refusals: [{ about }] });
  expect(rowsOfChoices(context)).toBe(rows);
});

test("a person's choice lapses when its capture turns out to show another print", () => {
  const { context, printId, tiff, jpeg, preservation } = twoCaptures();
  overruleMaster(context, { printId, captureId: jpeg, ...BY_HAND });
  setCapturePrint(context.db, jpeg, { printId: keptPrint(context.db, "1978.009"), side: "front" });
  chooseMasters(context);
  expect(preservation()).toMatchObject({ captureId: tiff, decidedBy: "rule" });
  expect(historyOfPrint(context.db, printId).map((line) => line.verb)).toContain("lapsed");
});

test("a side that lost its last capture says that there is none", () => {
  const { context, printId, tiff, jpeg, preservation } = twoCaptures();
  chooseMasters(context);
  for (const capture of [tiff, jpeg]) setCapturePrint(context.db, capture, { printId: null, side: "front" });
  chooseMasters(context);
  expect(preservation()).toMatchObject({ captureId: null, sentence: "There is no capture to choose from." });
  expect(historyOfPrint(context.db, printId)[0]?.detail).toMatchObject({ from: tiff, to: null });
});

test("a failing history line undoes the choice with it", () => {
  const { context, printId, jpeg, preservation } = twoCaptures();
  chooseMasters(context);
  context.db.$client.exec("create trigger no_more before insert on events begin select raise(abort, 'the disk is full'); end");
  expect(() => overruleMaster(context, { printId, captureId: jpeg, ...BY_HAND })).toThrow("the disk is full");
  expect(preservation()?.decidedBy).toBe("rule");
});
