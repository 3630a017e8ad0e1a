import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { Readable } from "node:stream";
import { create as contentDisposition } from "content-disposition";
import { Hono, type Context as Request } from "hono";
import type { OriginalKind } from "#domain/capture/capture.ts";
import { captionInput, MOST_PHOTOGRAPHS } from "#domain/condition/finding-photograph.ts";
import { type Refusal, refused } from "#domain/outcome.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findFinding, findPhotograph, photographsOfPrint } from "#drizzle/queries/finding-photographs.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import { PhotographsPage } from "#views/pages/photographs.tsx";
import { type FormState, NOTHING_TYPED } from "#views/parts/field.tsx";
import { photographFinding, takeOutPhotograph } from "../actions/photograph-finding.ts";
import { originalPath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import type { DerivedName } from "../images/derive.ts";
import { derivedOriginal } from "../images/derived-picture.ts";
import { idIn } from "./form.ts";
import { MEDIA_TYPES } from "./images.ts";
import { FAULT_WITH_FILE, readUpload, refusalsOfCut } from "./upload.ts";

/** Photographs of what was found on a print: they come in here, and are shown from here. */
export function photographRoutes(context: Context): Hono {
  const found = (c: Request) => {
    const id = idIn(c);
    const finding = id === null ? null : findFinding(context.db, id);
    const print = finding && findPrint(context.db, finding.printId);
    return finding && print?.binnedAt === null ? { finding, print } : null;
  };

  const show = (
    c: Request,
    status: 200 | 422,
    { finding, print }: NonNullable<ReturnType<typeof found>>,
    form: FormState,
    kept: number | null,
  ) =>
    c.html(
      PhotographsPage({
        collectionName: readCollection(context.db).name,
        print,
        finding,
        photographs: photographsOfPrint(context.db, print.id).get(finding.id) ?? [],
        form,
        kept,
        done: c.req.query("done"),
      }),
      status,
    );

  const photograph = (c: Request) => {
    const id = idIn(c);
    return id === null ? null : findPhotograph(context.db, id);
  };

  const showDerived = async (c: Request, name: DerivedName) => {
    const original = photograph(c)?.original;
    if (!original) return c.notFound();
    const tag = `"photograph-${original.sha256.slice(0, 32)}-${name}"`;
    c.header("ETag", tag);
    c.header("Cache-Control", "private, no-cache");
    if (c.req.header("if-none-match") === tag) return c.body(null, 304);
    const bytes = await derivedOriginal(context, original, name);
    return bytes ? c.body(bytes, 200, { "Content-Type": "image/jpeg" }) : c.notFound();
  };

  return new Hono()
    .get("/findings/:id{[0-9]+}/photographs", (c) => {
      const of = found(c);
      return of ? show(c, 200, of, NOTHING_TYPED, null) : c.notFound();
    })

    .post("/findings/:id{[0-9]+}/photographs", async (c) => {
      const of = found(c);
      if (!of) return c.notFound();
      const refusals: Refusal[] = [];
      let sentFiles = 0;
      const sent = await readUpload(c.req.raw, async (file, fields) => {
        const caption = captionInput.safeParse(fields.caption ?? "");
        if (++sentFiles > MOST_PHOTOGRAPHS) return;
        const input = { findingId: of.finding.id, caption: caption.data ?? null, source: file.stream, originalName: file.name };
        const kept = await photographFinding(context, input).catch((fault: unknown) => {
          console.error(fault);
          return refused(FAULT_WITH_FILE);
        });
        if (!kept.ok) refusals.push(...kept.refusals.map((each) => ({ ...each, about: null, happened: `${file.name}: ${each.happened}` })));
      });
      const failed = refusals.length;
      if (!captionInput.safeParse(sent.fields.caption ?? "").success) refusals.push(LONG_CAPTION);
      else refusals.push(...refusalsOfCut(sent));
      if (sentFiles > MOST_PHOTOGRAPHS) refusals.push(TOO_MANY);
      if (sentFiles === 0) refusals.push(NO_FILE);
      else if (!sent.isWhole) refusals.push(BROKEN_OFF);
      if (refusals.length > 0) return show(c, 422, of, { typed: sent.fields, refusals }, Math.min(sentFiles, MOST_PHOTOGRAPHS) - failed);
      return c.redirect(`/findings/${of.finding.id}/photographs?done=photographed`, 303);
    })

    .post("/photographs/:id{[0-9]+}/take-out", (c) => {
      const of = photograph(c);
      if (!of) return c.notFound();
      takeOutPhotograph(context, Number(c.req.param("id")));
      return c.redirect(`/findings/${of.findingId}/photographs?done=photograph-taken-out`, 303);
    })

    .get("/photographs/:id{[0-9]+}/thumbnail.jpg", (c) => showDerived(c, "thumbnail.jpg"))

    .get("/photographs/:id{[0-9]+}/view.jpg", (c) => showDerived(c, "view.jpg"))

    .get("/photographs/:id{[0-9]+}/original", async (c) => {
      const original = photograph(c)?.original;
      if (!original) return c.notFound();
      const path = originalPath(context.folder, original.sha256);
      const file = await stat(path).catch(() => null);
      if (!file) return c.notFound();
      c.header("Content-Type", MEDIA_TYPES[original.kind as OriginalKind]);
      c.header("Content-Length", String(file.size));
      c.header("Content-Disposition", contentDisposition(original.originalName));
      c.header("Cache-Control", "private, no-cache");
      return c.body(Readable.toWeb(createReadStream(path)) as ReadableStream);
    });
}

const NO_FILE: Refusal = { about: null, happened: "No file was chosen.", remedy: "Choose one or more photographs." };
const TOO_MANY: Refusal = {
  about: null,
  happened: `More than ${MOST_PHOTOGRAPHS} files were sent; those after the first ${MOST_PHOTOGRAPHS} were left out.`,
  remedy: "Choose those that show it best.",
};
const BROKEN_OFF: Refusal = { about: null, happened: "The form broke off before its end.", remedy: "Add those that are not below again." };
const LONG_CAPTION: Refusal = {
  about: "caption",
  happened: "This is longer than 500 letters, so the photographs were kept without it.",
  remedy: "Take them out, and add them again with a shorter line.",
};
