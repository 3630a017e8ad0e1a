import { Hono, type Context as Request } from "hono";
import { type Aim, isReadyMade } from "#domain/aim/aim.ts";
import { aimFile } from "#domain/aim/aim-file.ts";
import { type AimInput, aimInput, limitsOf } from "#domain/aim/aim-input.ts";
import { aimFromTyped, typedAim } from "#domain/aim/typed-aim.ts";
import { agreement, agreementByMeasure } from "#domain/master/eye-check.ts";
import type { Refusal } from "#domain/outcome.ts";
import { findAim, listAimVersions, listAllPurposes } from "#drizzle/queries/aims.ts";
import { listPrintsChosenByOlderAims } from "#drizzle/queries/candidates.ts";
import { countChoices } from "#drizzle/queries/choices.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { judgedByEye, listPairsToCheck } from "#drizzle/queries/eye-checks.ts";
import { PurposePage } from "#views/pages/purpose.tsx";
import { PurposeFormPage } from "#views/pages/purpose-form.tsx";
import { PurposesPage, type ShownPurpose } from "#views/pages/purposes.tsx";
import type { ShownAgreement } from "#views/parts/agreement.tsx";
import { type FormState, NOTHING_TYPED, type Typed } from "#views/parts/field.tsx";
import type { ShownChanges } from "#views/parts/would-change.tsx";
import { copyPurpose } from "../actions/create-purpose.ts";
import { editPurpose, setPurposeAside } from "../actions/edit-purpose.ts";
import { renewChoices } from "../actions/renew-choices.ts";
import { whatWouldChange } from "../actions/what-would-change.ts";
import type { Context } from "../context.ts";
import { readForm, refusalsOf } from "./form.ts";

/** What masters are chosen for: read, copied, changed, and every version kept. */
export function purposeRoutes(context: Context): Hono {
  const { db } = context;
  const aimIn = (c: Request, version: number | null = null): Aim | null => findAim(db, c.req.param("key") ?? "", version);
  const collectionName = () => readCollection(db).name;

  const show = (c: Request, aim: Aim, status: 200 | 422, copy: FormState) => {
    const purpose = shownPurposes(context).find(({ key }) => key === aim.purpose.key);
    if (!purpose) return c.notFound();
    const toRenew = listPrintsChosenByOlderAims(db, purpose.id).length;
    const versions = listAimVersions(db, purpose.id);
    const found = agreementOf(context, purpose.id);
    const done = c.req.query("done");
    return c.html(PurposePage({ collectionName: collectionName(), purpose, aim, versions, agreement: found, toRenew, copy, done }), status);
  };

  const showForm = (c: Request, aim: Aim, status: 200 | 409 | 422, form: FormState, changes: ShownChanges | null = null) =>
    c.html(PurposeFormPage({ collectionName: collectionName(), purpose: aim.purpose, form, changes }), status);

  /** Goes on by itself after the answer: a large collection takes longer than anybody waits. */
  const renew = (purposeKey: string) => void renewChoices(context, { purposeKey }).catch(console.error);

  return new Hono()
    .get("/purposes", (c) =>
      c.html(PurposesPage({ collectionName: collectionName(), purposes: shownPurposes(context), done: c.req.query("done") })),
    )

    .get("/purposes/:key", (c) => {
      const aim = aimIn(c);
      return aim ? show(c, aim, 200, NOTHING_TYPED) : c.notFound();
    })

    .get("/purposes/:key/versions/:version{[0-9]+}", (c) => {
      const aim = aimIn(c, Number(c.req.param("version")));
      return aim ? show(c, aim, 200, NOTHING_TYPED) : c.notFound();
    })

    .get("/purposes/:key/aim.json", (c) => {
      const version = c.req.query("version");
      const aim = aimIn(c, version === undefined ? null : Number(version));
      return aim ? c.body(`${JSON.stringify(aimFile(aim), null, 2)}\n`, 200, { "Content-Type": "application/json" }) : c.notFound();
    })

    .get("/purposes/:key/edit", (c) => {
      const aim = aimIn(c);
      if (!aim || isReadyMade(aim.purpose.key)) return c.notFound();
      return showForm(c, aim, 200, { typed: typedAim(aim), refusals: [] });
    })

    .post("/purposes/:key", async (c) => {
      const aim = aimIn(c);
      if (!aim || isReadyMade(aim.purpose.key)) return c.notFound();
      const typed = await readForm(c);
      const read = readAim(aim, typed);
      if ("refusals" in read) return showForm(c, aim, 422, { typed, refusals: read.refusals });
      if (typed.act === "look") {
        // whoever types on asks again, and nobody waits for this answer any more
        const ending = AbortSignal.any([context.ending, c.req.raw.signal]);
        return showForm(
          c,
          aim,
          200,
          { typed, refusals: [] },
          await whatWouldChange({ ...context, ending }, aim.purpose, limitsOf(read.input)),
        );
      }
      const changeNote = typed.changeNote?.trim().slice(0, 1000) || null;
      const edited = editPurpose(context, { key: aim.purpose.key, readVersion: Number(typed.version), input: read.input, changeNote });
      if (!edited.ok) {
        const isLate = edited.refusals.some((refusal) => refusal.about === "version");
        return showForm(c, aim, isLate ? 409 : 422, { typed: { ...typed, version: String(aim.version) }, refusals: edited.refusals });
      }
      renew(aim.purpose.key);
      return c.redirect(`/purposes/${aim.purpose.key}?done=${edited.value.isNew ? "aim-saved" : "aim-unchanged"}`, 303);
    })

    .post("/purposes/:key/copy", async (c) => {
      const aim = aimIn(c);
      if (!aim) return c.notFound();
      const typed = await readForm(c);
      const name = aimInput.shape.name.safeParse(typed.name ?? "");
      if (!name.success)
        return show(c, aim, 422, { typed, refusals: refusalsOf(name.error).map((refusal) => ({ ...refusal, about: "name" })) });
      const made = copyPurpose(context, { key: aim.purpose.key, name: name.data });
      if (!made.ok) return show(c, aim, 422, { typed, refusals: made.refusals });
      renew(made.value.key);
      return c.redirect(`/purposes/${made.value.key}?done=purpose-copied`, 303);
    })

    .post("/purposes/:key/aside", (c) => setAside(c, true))

    .post("/purposes/:key/take-up", (c) => setAside(c, false));

  function setAside(c: Request, isAside: boolean) {
    const aim = aimIn(c);
    if (!aim || !setPurposeAside(context, aim.purpose.key, isAside).ok) return c.notFound();
    if (!isAside) renew(aim.purpose.key);
    return c.redirect(`/purposes/${aim.purpose.key}?done=${isAside ? "purpose-aside" : "purpose-taken-up"}`, 303);
  }
}

/** What was typed, as the schema takes it; what only a target proves is not on the form and stays. */
function readAim(aim: Aim, typed: Typed): { input: AimInput } | { refusals: Refusal[] } {
  const kept = aim.limits.filter((limit) => limit.provedBy === "target");
  const read = aimInput.safeParse(aimFromTyped(typed, kept));
  return read.success ? { input: read.data } : { refusals: refusalsOf(read.error) };
}

function agreementOf({ db, userId }: Context, purposeId: number): ShownAgreement {
  const judged = judgedByEye(db, purposeId);
  return {
    all: agreement(judged),
    sure: agreement(judged.filter(({ closeCall }) => !closeCall)),
    tooClose: agreement(judged.filter(({ closeCall }) => closeCall)),
    byMeasure: agreementByMeasure(judged),
    left: listPairsToCheck(db, { purposeId, userId }).length,
  };
}

function shownPurposes({ db }: Context): ShownPurpose[] {
  const counts = countChoices(db);
  return listAllPurposes(db).flatMap((purpose) => {
    const aim = findAim(db, purpose.key);
    if (!aim) return [];
    const standing = counts.get(purpose.id) ?? { masters: 0, none: 0, byHand: 0, tooClose: 0 };
    return [{ ...purpose, ...standing, isReadyMade: isReadyMade(purpose.key), asks: aim.name, version: aim.version }];
  });
}
