import { rm } from "node:fs/promises";
import { create as contentDisposition } from "content-disposition";
import { Hono, type Context as Request } from "hono";
import type { ZodType } from "zod";
import type { Refusal } from "#domain/outcome.ts";
import { evenSheetInput, type TargetCheckInput, targetCheckInput } from "#domain/target/check-input.ts";
import { targetName } from "#domain/target/layout.ts";
import { PRINTED_PAGE } from "#domain/target/printed-page.ts";
import { findAim } from "#drizzle/queries/aims.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findSetUp } from "#drizzle/queries/set-ups.ts";
import { findTargetCheck, latestCheck, listTargetChecks, type TargetCheck } from "#drizzle/queries/target-checks.ts";
import { EvenSheetPage } from "#views/pages/even-sheet.tsx";
import { TargetChecksPage } from "#views/pages/target-checks.tsx";
import type { ShownTargetCheck } from "#views/parts/check-results.tsx";
import { type FormState, NOTHING_TYPED } from "#views/parts/field.tsx";
import { checkTarget, takeOutCheck } from "../actions/check-target.ts";
import type { Context } from "../context.ts";
import { targetPagePdf } from "../target/target-page-pdf.ts";
import { idIn, refusalsOf } from "./form.ts";
import { readSentCheck } from "./sent-check.ts";

type SetUpNamed = { readonly id: number; readonly name: string };
type Show = (c: Request, status: 200 | 422, setUp: SetUpNamed, form: FormState) => Response | Promise<Response>;
type Says = Pick<ZodType<TargetCheckInput>, "safeParse">;

/** Pictures of test targets, and what they prove of a set-up. */
export function targetCheckRoutes(context: Context): Hono {
  const kept = (c: Request) => {
    const id = idIn(c);
    return id === null ? null : findSetUp(context.db, id);
  };

  const showChecks: Show = (c, status, setUp, form) => {
    const latest = latestCheck(context.db, setUp.id);
    const all = listTargetChecks(context.db, setUp.id);
    return c.html(
      TargetChecksPage({
        collectionName: readCollection(context.db).name,
        setUp,
        checks: all.flatMap((check) => (check.read ? shown({ ...check, read: check.read }) : [])),
        all: all.map(({ id, takenOn, layout, original, note, read }) => ({
          id,
          takenOn,
          targetName: targetName(layout),
          fileName: original.originalName,
          note,
          state: layout === null ? "sheet" : read ? "read" : "waiting",
        })),
        latest: latest && shown(latest),
        limits: findAim(context.db, "preservation-master")?.limits ?? [],
        form,
        done: c.req.query("done"),
      }),
      status,
    );
  };

  const showSheet: Show = (c, status, setUp, form) =>
    c.html(EvenSheetPage({ collectionName: readCollection(context.db).name, setUp, form }), status);

  /** Keeps what a form sends, or shows it again with what is wrong. */
  const keepSent = async (c: Request, says: Says, show: Show) => {
    const setUp = kept(c);
    if (!setUp) return c.notFound();
    const sent = await readSentCheck(context, c.req.raw);
    const refuse = async (...refusals: readonly Refusal[]) => {
      if (sent.picture) await rm(sent.picture.copied.path, { force: true });
      return show(c, 422, setUp, { typed: sent.fields, refusals });
    };
    if (sent.refusals.length > 0) return refuse(...sent.refusals);
    const input = says.safeParse(sent.fields);
    if (!input.success) return refuse(...refusalsOf(input.error));
    if (!sent.picture) return refuse(NO_PICTURE);
    const { name } = sent.picture;
    const checked = await checkTarget(context, { setUpId: setUp.id, ...sent.picture, input: input.data, saidSheet: null, mayWait: true });
    // what is wrong with the file is said at its field
    if (!checked.ok) return refuse(...checked.refusals.map((each) => (each.about === name ? { ...each, about: "picture" } : each)));
    const { checkId, isRead } = checked.value;
    return c.redirect(isRead ? `/set-ups/${setUp.id}/checks?done=target-checked` : `/target-checks/${checkId}/outline`, 303);
  };

  return new Hono()
    .get("/set-ups/:id{[0-9]+}/checks", (c) => {
      const setUp = kept(c);
      return setUp ? showChecks(c, 200, setUp, NOTHING_TYPED) : c.notFound();
    })

    .get("/set-ups/:id{[0-9]+}/even-sheet", (c) => {
      const setUp = kept(c);
      return setUp ? showSheet(c, 200, setUp, NOTHING_TYPED) : c.notFound();
    })

    .post("/set-ups/:id{[0-9]+}/checks", (c) => keepSent(c, targetCheckInput, showChecks))

    .post("/set-ups/:id{[0-9]+}/even-sheet", (c) => keepSent(c, evenSheetInput, showSheet))

    .get("/target-layout.json", (c) => c.json(PRINTED_PAGE))

    .get("/target-page.pdf", async (c) => {
      const pdf = await targetPagePdf();
      return c.body(new Uint8Array(pdf), 200, {
        "Content-Type": "application/pdf",
        "Content-Disposition": contentDisposition("target-page.pdf"),
      });
    })

    .post("/target-checks/:id{[0-9]+}/take-out", (c) => {
      const id = idIn(c);
      const check = id === null ? null : findTargetCheck(context.db, id);
      if (!check) return c.notFound();
      takeOutCheck(context, check.id);
      return c.redirect(`/set-ups/${check.setUpId}/checks?done=target-check-taken-out`, 303);
    });
}

const NO_PICTURE: Refusal = { about: "picture", happened: "No picture was chosen.", remedy: "Choose the file of the picture." };

const shown = ({ layout, original, ...check }: TargetCheck): ShownTargetCheck => ({
  ...check,
  targetName: targetName(layout),
  isEvenSheet: layout === null,
  fileName: original.originalName,
});
