import { expect, test } from "vitest";
import { aimInput, limitsOf, MOST_PURPOSES } from "#domain/aim/aim-input.ts";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import { aimFromTyped, typedAim } from "#domain/aim/typed-aim.ts";
import { currentAims, findAim, listAimVersions, listPurposes } from "#drizzle/queries/aims.ts";
import { listPrintsChosenByOlderAims } from "#drizzle/queries/candidates.ts";
import { listChoicesOfPrint } from "#drizzle/queries/choices.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { copyPurpose, createPurpose } from "#server/actions/create-purpose.ts";
import { editPurpose, setPurposeAside } from "#server/actions/edit-purpose.ts";
import { ensurePurposes } from "#server/actions/ensure-purposes.ts";
import { overruleMaster } from "#server/actions/overrule-master.ts";
import { renewChoices } from "#server/actions/renew-choices.ts";
import { whatWouldChange } from "#server/actions/what-would-change.ts";
import type { Context } from "#server/context.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const KEY = "own-walls";

/** A collection with a copy of the preservation aim. */
function withCopy() {
  const context = emptyCollection();
  expect(copyPurpose(context, { key: "preservation-master", name: "Walls" })).toEqual({ ok: true, value: { key: KEY } });
  return context;
}

/** The held aim with some figures typed anew. */
function typedWith(context: Context, figures: Record<string, string>, key = KEY) {
  const held = findAim(context.db, key);
  if (!held) throw new Error("no aim");
  const target = held.limits.filter((limit) => limit.provedBy === "target");
  const input = aimInput.parse(aimFromTyped({ ...typedAim(held), ...figures }, target));
  return { held, input };
}

const edit = (context: Context, figures: Record<string, string>, key = KEY) => {
  const { held, input } = typedWith(context, figures, key);
  return editPurpose(context, { key, readVersion: held.version, input, changeNote: "Walls forgive more." });
};

test("a copy asks the same as what it was copied from, and says so; two never share a name", () => {
  const context = withCopy();
  const aim = findAim(context.db, KEY);
  expect(aim?.limits).toEqual(PUBLISHED_AIMS[0]?.limits);
  expect(aim?.edition).toContain("Copied from Preservation master, version 1");
  expect(copyPurpose(context, { key: "screen", name: " wALLS " })).toMatchObject({ ok: false, refusals: [{ about: "name" }] });
  expect(copyPurpose(context, { key: "no-such", name: "Other" }).ok).toBe(false);
  expect(listPurposes(context.db).map(({ key }) => key)).toEqual(["preservation-master", "reproduction", "screen", KEY]);
});

test("a change is a new version with its note; the earlier one reads as it was, and its own figures are called own", () => {
  const context = withCopy();
  expect(edit(context, { "limits.samplingPpi.requiredAtLeast": "250" })).toMatchObject({ ok: true, value: { isNew: true } });
  const [first, second] = [1, 2].map((version) =>
    findAim(context.db, KEY, version)?.limits.find(({ measure }) => measure === "samplingPpi"),
  );
  expect(first).toMatchObject({ requiredAtLeast: 392, sourceStatus: "standard" });
  expect(second).toMatchObject({ requiredAtLeast: 250, sourceStatus: "own" });
  expect(listAimVersions(context.db, findAim(context.db, KEY)?.purpose.id ?? 0).map(({ version, note }) => [version, note])).toEqual([
    [2, "Walls forgive more."],
    [1, null],
  ]);
  expect(currentAims(context.db).find(({ purpose }) => purpose.key === KEY)?.version).toBe(2);
});

test("saving what asks the same makes no version, but a new name is kept", () => {
  const context = withCopy();
  expect(edit(context, { name: "Big walls" })).toMatchObject({ ok: true, value: { isNew: false } });
  expect(findAim(context.db, KEY)).toMatchObject({ version: 1, purpose: { name: "Big walls" } });
});

test("a ready-made aim stays as published, whoever tries", () => {
  const context = emptyCollection();
  const before = currentAims(context.db);
  expect(edit(context, { "limits.samplingPpi.requiredAtLeast": "1" }, "preservation-master")).toMatchObject({ ok: false });
  expect(setPurposeAside(context, "preservation-master", true).ok).toBe(false);
  expect(currentAims(context.db)).toEqual(before);
  // and a purpose of one's own is not touched by the program's aims
  copyPurpose(context, { key: "screen", name: "Walls" });
  const own = findAim(context.db, KEY);
  ensurePurposes(
    context,
    PUBLISHED_AIMS.map((aim) => ({ ...aim, edition: "next" })),
  );
  expect(findAim(context.db, KEY)).toEqual(own);
});

test("who saves second is told, and nothing is lost", () => {
  const context = withCopy();
  const { input } = typedWith(context, { "limits.samplingPpi.requiredAtLeast": "260" });
  edit(context, { "limits.samplingPpi.requiredAtLeast": "250" });
  expect(editPurpose(context, { key: KEY, readVersion: 1, input, changeNote: null })).toMatchObject({
    ok: false,
    refusals: [{ about: "version" }],
  });
  expect(findAim(context.db, KEY)?.version).toBe(2);
});

test("there are no more purposes than fit a screen", () => {
  const context = emptyCollection();
  const { input } = typedWith(context, {}, "screen");
  for (let count = listPurposes(context.db).length; count < MOST_PURPOSES; count++)
    expect(createPurpose(context, { ...input, name: `Walls ${count}`, edition: "own" }).ok).toBe(true);
  expect(createPurpose(context, { ...input, name: "One more", edition: "own" }).ok).toBe(false);
});

/** Three prints: one captured at 450 ppi, one at 310, one with both of which a person chose the coarser. */
function threePrints(context: Context) {
  const [fine, coarse, byHand] = ["1978.001", "1978.002", "1978.003"].map((number) => keptPrint(context.db, number)) as [
    number,
    number,
    number,
  ];
  measuredCapture(context.db, fine, GOOD_ENOUGH, { fileName: "fine.tif" });
  measuredCapture(context.db, coarse, { ...GOOD_ENOUGH, samplingPpi: 310 }, { fileName: "coarse.tif" });
  measuredCapture(context.db, byHand, GOOD_ENOUGH);
  const chosen = measuredCapture(context.db, byHand, { ...GOOD_ENOUGH, samplingPpi: 310 });
  chooseMasters(context);
  overruleMaster(context, { printId: byHand, side: "front", purposeKey: KEY, captureId: chosen, reason: "It shows the fold." });
  return { fine, coarse, byHand };
}

test("what would change is told before it is saved, is what changes then, and what a person chose stands", async () => {
  const context = withCopy();
  const { fine, coarse } = threePrints(context);
  const masters = () =>
    [fine, coarse].map((id) => listChoicesOfPrint(context.db, id).find(({ purpose }) => purpose.key === KEY)?.captureId ?? null);
  const before = masters();
  const { held, input } = typedWith(context, { "limits.samplingPpi.requiredAtLeast": "300" });
  const foretold = await whatWouldChange(context, held.purpose, limitsOf(input));
  expect(foretold).toMatchObject({ sides: 3, gained: 1, lost: 0, another: 0, byHand: 1 });
  expect(foretold.first).toEqual([
    { printId: coarse, objectNumber: "1978.002", title: "", side: "front", before: null, after: "coarse.tif" },
  ]);
  expect(masters()).toEqual(before);
  edit(context, { "limits.samplingPpi.requiredAtLeast": "300" });
  expect(listPrintsChosenByOlderAims(context.db, held.purpose.id)).toEqual([fine, coarse]);
  await renewChoices(context, { purposeKey: KEY });
  expect(before).toEqual([expect.any(Number), null]);
  expect(masters()).toEqual([before[0], expect.any(Number)]);
  expect(await whatWouldChange(context, held.purpose, limitsOf(input))).toMatchObject({ gained: 0, lost: 0, another: 0, first: [] });
  expect(listPrintsChosenByOlderAims(context.db, held.purpose.id)).toEqual([]);
});

test("a stricter aim is foretold as masters lost, and the same aim as no change", async () => {
  const context = withCopy();
  threePrints(context);
  const held = findAim(context.db, KEY);
  const stricter = typedWith(context, { "limits.samplingPpi.requiredAtLeast": "500" });
  expect(await whatWouldChange(context, stricter.held.purpose, limitsOf(stricter.input))).toMatchObject({ lost: 1, gained: 0, another: 0 });
  expect(await whatWouldChange(context, stricter.held.purpose, held?.limits ?? [])).toMatchObject({ lost: 0, gained: 0, another: 0 });
});

test("masters are chosen for a new purpose where others were chosen, and for one set aside no more", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001");
  measuredCapture(context.db, printId, GOOD_ENOUGH);
  chooseMasters(context);
  copyPurpose(context, { key: "screen", name: "Walls" });
  expect(listPrintsChosenByOlderAims(context.db)).toEqual([printId]);
  await renewChoices(context);
  expect(listChoicesOfPrint(context.db, printId).map(({ purpose }) => purpose.key)).toContain(KEY);
  setPurposeAside(context, KEY, true);
  expect(currentAims(context.db).map(({ purpose }) => purpose.key)).not.toContain(KEY);
  measuredCapture(context.db, printId, { ...GOOD_ENOUGH, samplingPpi: 600 });
  const before = listChoicesOfPrint(context.db, printId).find(({ purpose }) => purpose.key === KEY);
  chooseMasters(context);
  expect(listChoicesOfPrint(context.db, printId).find(({ purpose }) => purpose.key === KEY)).toEqual(before);
  setPurposeAside(context, KEY, false);
  chooseMasters(context);
  expect(listChoicesOfPrint(context.db, printId).find(({ purpose }) => purpose.key === KEY)?.captureId).not.toBe(before?.captureId);
});
