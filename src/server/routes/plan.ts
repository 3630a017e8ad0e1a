import { Hono, type Context as Request } from "hono";
import { ARRANGEMENT_LABELS, arrangementInput, typedFromArrangement } from "#domain/plan/arrangement.ts";
import { JOB_LABELS, jobInput } from "#domain/plan/job-input.ts";
import { listPurposes } from "#drizzle/queries/aims.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findSetUp, listSetUps } from "#drizzle/queries/set-ups.ts";
import { PlanPage, type ShownPlan } from "#views/pages/plan.tsx";
import type { FormState } from "#views/parts/field.tsx";
import { keepArrangement } from "../actions/keep-arrangement.ts";
import { planCaptures, refusalsOfPlannedNumber } from "../actions/plan-captures.ts";
import type { Context } from "../context.ts";
import { idIn, readForm, refusalsOf } from "./form.ts";

const FIGURES = Object.keys(ARRANGEMENT_LABELS);
const FIELDS = [...Object.keys(JOB_LABELS), ...FIGURES, "purpose"];

/** What a set-up can do before anything is set up. The plan stands in the address, so that it can be kept and sent on. */
export function planRoutes(context: Context): Hono {
  const show = (c: Request, status: 200 | 422, form: FormState, setUpId: number | null, shown: ShownPlan | null) =>
    c.html(
      PlanPage({
        collectionName: readCollection(context.db).name,
        form,
        purposes: listPurposes(context.db),
        setUps: listSetUps(context.db).map(({ id, name, arrangement }) => ({ id, name, hasFigures: arrangement !== null })),
        setUpId,
        shown,
        sizeShown: c.req.query("size") ?? null,
        sizeHref: (key) => `/plan?${new URLSearchParams({ ...said(form.typed, setUpId), size: key })}#size`,
        done: c.req.query("done"),
      }),
      status,
    );

  return new Hono()
    .get("/plan", (c) => {
      const asked = c.req.query();
      const setUp = findSetUp(context.db, Number(asked.setUp) || 0);
      const typed = Object.fromEntries(FIELDS.map((name) => [name, (asked[name] ?? "").slice(0, 100)]));
      const hasFigures = FIGURES.some((name) => (typed[name] ?? "") !== "");
      if (!hasFigures && typed.currency === "") typed.currency = setUp?.priceCurrency ?? "";
      if (!hasFigures && setUp?.arrangement) Object.assign(typed, typedFromArrangement(setUp.arrangement));
      else if (!hasFigures) return show(c, 200, { typed, refusals: [] }, setUp?.id ?? null, null);
      const arrangement = arrangementInput.safeParse(typed);
      const job = jobInput.safeParse(typed);
      if (!arrangement.success || !job.success) {
        const unread = [arrangement, job].flatMap((read) => (read.success ? [] : refusalsOf(read.error)));
        const refusals = [...refusalsOfPlannedNumber(context, typed.objectNumber), ...unread];
        return show(c, 422, { typed, refusals }, setUp?.id ?? null, null);
      }
      const planned = planCaptures(context, {
        arrangement: arrangement.data,
        job: job.data,
        setUpId: setUp?.id ?? null,
        purposeKey: typed.purpose || null,
      });
      if (!planned.ok) return show(c, 422, { typed, refusals: planned.refusals }, setUp?.id ?? null, null);
      const shown = { ...planned.value, arrangement: arrangement.data };
      return show(c, 200, { typed, refusals: [] }, setUp?.id ?? null, shown);
    })

    .post("/set-ups/:id{[0-9]+}/figures", async (c) => {
      const setUpId = idIn(c);
      if (setUpId === null || !findSetUp(context.db, setUpId)) return c.notFound();
      const typed = await readForm(c);
      const read = arrangementInput.safeParse(typed);
      if (!read.success) return show(c, 422, { typed, refusals: refusalsOf(read.error) }, setUpId, null);
      const kept = keepArrangement(context, { setUpId, arrangement: read.data });
      if (!kept.ok) return show(c, 422, { typed, refusals: kept.refusals }, setUpId, null);
      return c.redirect(`/plan?${new URLSearchParams({ ...said(typed, setUpId), done: "figures-kept" })}`, 303);
    });
}

/** What was typed, without what was left empty, as an address tells it. */
const said = (typed: Readonly<Record<string, string>>, setUpId: number | null): Record<string, string> => ({
  ...(setUpId === null ? {} : { setUp: String(setUpId) }),
  ...Object.fromEntries(FIELDS.flatMap((name) => (typed[name] ? [[name, typed[name]]] : []))),
});
