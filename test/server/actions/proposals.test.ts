import { expect, test } from "vitest";
import { listChoicesOfPrint } from "#drizzle/queries/choices.ts";
import { historyOfPrint } from "#drizzle/queries/events.ts";
import { listOpenProposals } from "#drizzle/queries/proposals.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { overruleMaster } from "#server/actions/overrule-master.ts";
import { releaseMaster } from "#server/actions/release-master.ts";
import { createApp } from "#server/app.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture, reread } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const KEY = "preservation-master";

/** A print that fell short, whose best capture a person made the master until there is a better one. */
function heldByHand() {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001", { title: "Weir in winter" });
  const phone = measuredCapture(context.db, printId, { ...GOOD_ENOUGH, lossless: 0, samplingPpi: 310 }, { fileName: "phone.jpg" });
  chooseMasters(context);
  overruleMaster(context, { printId, side: "front", purposeKey: KEY, captureId: phone, reason: "All we have for now." });
  const master = () => listChoicesOfPrint(context.db, printId).find(({ purpose }) => purpose.key === KEY);
  const later = (samplingPpi = 500, fileName = "stand.tif") => {
    const id = measuredCapture(context.db, printId, { ...GOOD_ENOUGH, samplingPpi }, { fileName });
    chooseMasters(context, { printIds: [printId] });
    return id;
  };
  const open = () => listOpenProposals(context.db);
  const app = createApp(context);
  const answer = (proposalId: number, given: string, from = "") =>
    app.request(`/prints/${printId}/proposals/${proposalId}`, {
      method: "POST",
      headers: { "Sec-Fetch-Site": "same-origin" },
      body: new URLSearchParams({ answer: given, ...(from && { from }) }),
    });
  const verbs = () =>
    historyOfPrint(context.db, printId)
      .filter(({ subject, detail }) => subject === "choice" && detail.purpose === KEY)
      .map(({ verb }) => verb);
  const page = async (path = `/prints/${printId}`) => (await app.request(path)).text();
  return { context, printId, phone, master, later, open, answer, verbs, page };
}

test("a later, better capture is proposed and not put in the place of a person's choice; the page shows it with both answers", async () => {
  const { phone, master, later, open, verbs, page, printId } = heldByHand();
  expect(open()).toEqual([]);
  const stand = later();
  expect(master()).toMatchObject({ captureId: phone, decidedBy: "person" });
  expect(open()).toMatchObject([{ captureId: stand, proposedName: "stand.tif", heldId: phone, side: "front", print: { id: printId } }]);
  expect(verbs()).toEqual(["proposed", "overruled", "chosen"]);
  for (const html of [await page(), await page("/choices")]) {
    expect(html).toContain("A later capture is proposed");
    expect(html).toContain('value="accepted"');
    expect(html).toContain('value="declined"');
  }
  expect(await page("/")).toMatch(/asks? for your eye/);
});

test("choosing again proposes it once", () => {
  const { context, later, open, verbs } = heldByHand();
  later();
  const [first] = open();
  chooseMasters(context);
  expect(open()).toEqual([first]);
  expect(verbs().filter((verb) => verb === "proposed")).toHaveLength(1);
});

test("accepted, it is the person's master with one click, is in the history, and a still better one is proposed in its turn", async () => {
  const { context, later, master, open, answer, verbs, page } = heldByHand();
  const stand = later();
  const answered = await answer(open()[0]?.id ?? 0, "accepted");
  expect(answered.headers.get("location")).toContain("done=proposal-accepted");
  expect(master()).toMatchObject({ captureId: stand, decidedBy: "person" });
  expect(master()?.sentence).toMatch(/^stand\.tif was accepted in the place of phone\.jpg, as the rule proposed\. /);
  expect(open()).toEqual([]);
  expect(verbs()[0]).toBe("accepted");
  chooseMasters(context);
  expect(open()).toEqual([]);
  expect(await page()).toContain("Earlier choices (2)");
  const better = later(600, "again.tif");
  expect(master()?.captureId).toBe(stand);
  expect(open()).toMatchObject([{ captureId: better }]);
});

test("declined, the choice stays, and the same capture is not proposed again; another one is", async () => {
  const { context, phone, later, master, open, answer, verbs } = heldByHand();
  later();
  const answered = await answer(open()[0]?.id ?? 0, "declined", "choices");
  expect(answered.headers.get("location")).toBe("/choices?done=proposal-declined");
  chooseMasters(context);
  expect(master()?.captureId).toBe(phone);
  expect(open()).toEqual([]);
  expect(verbs()[0]).toBe("declined");
  const better = later(600, "again.tif");
  expect(open()).toMatchObject([{ captureId: better }]);
});

test("what is not better any more lapses, and so does what rests on a choice that was given back", async () => {
  const { context, printId, later, open, answer } = heldByHand();
  const stand = later();
  const [waiting] = open();
  reread(context.db, stand, { ...GOOD_ENOUGH, samplingPpi: 100 });
  chooseMasters(context);
  expect(open()).toEqual([]);
  expect((await answer(waiting?.id ?? 0, "accepted")).headers.get("location")).toContain("done=proposal-gone");
  later(500, "third.tif");
  expect(open()).toHaveLength(1);
  releaseMaster(context, { printId, side: "front", purposeKey: KEY });
  expect(open()).toEqual([]);
});

test("an answer that is neither, and a proposal of another print, are refused", async () => {
  const { context, later, open, answer } = heldByHand();
  later();
  expect((await answer(open()[0]?.id ?? 0, "perhaps")).status).toBe(404);
  const other = keptPrint(context.db, "1978.002");
  const wrong = await createApp(context).request(`/prints/${other}/proposals/${open()[0]?.id}`, {
    method: "POST",
    headers: { "Sec-Fetch-Site": "same-origin" },
    body: new URLSearchParams({ answer: "accepted" }),
  });
  expect(wrong.headers.get("location")).toContain("proposal-gone");
  expect(open()).toHaveLength(1);
});

test("what is too close to call is listed for a person to look at, until one decides", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.003");
  const [one] = [1, 2].map(() => measuredCapture(context.db, printId, GOOD_ENOUGH)) as [number, number];
  const app = createApp(context);
  const page = async () => (await app.request("/choices")).text();
  expect(await page()).toContain("Nothing waits");
  chooseMasters(context);
  expect(await page()).toContain("Too close to call (3)");
  for (const purposeKey of ["preservation-master", "reproduction", "screen"])
    overruleMaster(context, { printId, side: "front", purposeKey, captureId: one, reason: "I looked: it shows the fold." });
  expect(await page()).toContain("Nothing waits");
});
