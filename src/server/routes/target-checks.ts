import { rm } from "node:fs/promises";
import { text as readText } from "node:stream/consumers";
import { create as contentDisposition } from "content-disposition";
import { Hono, type Context as Request } from "hono";
import type { Refusal } from "#domain/outcome.ts";
import { MOST_TEXT_BYTES, targetCheckInput } from "#domain/target/check-input.ts";
import { currentAims } from "#drizzle/queries/aims.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findSetUp } from "#drizzle/queries/set-ups.ts";
import { findTargetCheck, listTargetChecks } from "#drizzle/queries/target-checks.ts";
import { TargetChecksPage } from "#views/pages/target-checks.tsx";
import type { FormState } from "#views/parts/field.tsx";
import { checkTarget, takeOutCheck } from "../actions/check-target.ts";
import type { Context } from "../context.ts";
import { type CopiedIn, copyIn, plainName } from "../intake/copy-in.ts";
import { targetPagePdf } from "../target/target-page-pdf.ts";
import { idIn, refusalsOf } from "./form.ts";
import { readUpload, refusalsOfCut, type SentFile } from "./upload.ts";

/** Pictures of test targets, and what they prove of a set-up. */
export function targetCheckRoutes(context: Context): Hono {
  const kept = (c: Request) => {
    const id = idIn(c);
    return id === null ? null : findSetUp(context.db, id);
  };

  const show = (c: Request, status: 200 | 422, setUp: { id: number; name: string }, form: FormState) =>
    c.html(
      TargetChecksPage({
        collectionName: readCollection(context.db).name,
        setUp,
        checks: listTargetChecks(context.db, setUp.id).map(({ layout, original, ...check }) => ({
          ...check,
          targetName: layout.name,
          fileName: original.originalName,
        })),
        limits: currentAims(context.db).find(({ purpose }) => purpose.key === "preservation-master")?.limits ?? [],
        form,
        done: c.req.query("done"),
      }),
      status,
    );

  return new Hono()
    .get("/set-ups/:id{[0-9]+}/checks", (c) => {
      const setUp = kept(c);
      return setUp ? show(c, 200, setUp, { typed: {}, refusals: [] }) : c.notFound();
    })

    .post("/set-ups/:id{[0-9]+}/checks", async (c) => {
      const setUp = kept(c);
      if (!setUp) return c.notFound();
      const sent = await readSent(context, c.req.raw);
      const refuse = async (...refusals: Refusal[]) => {
        if (sent.picture) await rm(sent.picture.copied.path, { force: true });
        return show(c, 422, setUp, { typed: sent.fields, refusals });
      };
      if (sent.refusals.length > 0) return refuse(...sent.refusals);
      const input = targetCheckInput.safeParse(sent.fields);
      if (!input.success) return refuse(...refusalsOf(input.error));
      if (!sent.picture) return refuse(NO_PICTURE);
      const checked = await checkTarget(context, { setUpId: setUp.id, ...sent.picture, input: input.data });
      if (!checked.ok) return show(c, 422, setUp, { typed: sent.fields, refusals: checked.refusals });
      return c.redirect(`/set-ups/${setUp.id}/checks?done=target-checked`, 303);
    })

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

type Received = {
  fields: Record<string, string>;
  picture: { copied: CopiedIn; name: string } | null;
  refusals: Refusal[];
};

/** The picture goes to disk as it streams in; the small texts are read whole, within their bound. */
async function readSent(context: Context, request: Request["req"]["raw"]): Promise<Received> {
  const received: Received = {
    fields: { layout: "", reference: "", referenceName: "", takenOn: "", note: "" },
    picture: null,
    refusals: [],
  };
  const sent = await readUpload(request, async (file) => {
    if (file.field === "picture" && received.picture === null) {
      const name = plainName(file.name);
      const copied = await copyIn(context.folder, file.stream, name);
      if (copied.ok) received.picture = { copied: copied.value, name };
      else received.refusals.push(...copied.refusals.map((refusal) => ({ ...refusal, about: "picture" })));
    } else if (file.field === "layout" || file.field === "reference") {
      const text = await boundedText(file);
      if (text === null) received.refusals.push(TOO_LONG(file.field));
      else received.fields[file.field] = text;
      if (file.field === "reference") received.fields.referenceName = plainName(file.name);
    }
  });
  received.refusals.push(...refusalsOfCut(sent));
  if (!sent.isWhole) received.refusals.push(BROKEN_OFF);
  return { ...received, fields: { ...received.fields, takenOn: sent.fields.takenOn ?? "", note: sent.fields.note ?? "" } };
}

/** Null where there is more of it than such a file ever holds. */
async function boundedText({ stream }: SentFile): Promise<string | null> {
  let bytes = 0;
  return readText(
    (async function* () {
      for await (const chunk of stream) {
        bytes += chunk.length;
        if (bytes > MOST_TEXT_BYTES) return;
        yield chunk as Buffer;
      }
    })(),
  ).then((text) => (bytes > MOST_TEXT_BYTES ? null : text));
}

const NO_PICTURE: Refusal = { about: "picture", happened: "No picture was chosen.", remedy: "Choose the file that shows the target." };
const BROKEN_OFF: Refusal = { about: null, happened: "The form broke off before its end.", remedy: "Send it again." };
const TOO_LONG = (about: string): Refusal => ({
  about,
  happened: "This file is far too long to be what is asked for.",
  remedy: "Choose the small text file that came with the target.",
});
