import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { Readable } from "node:stream";
import { create as contentDisposition } from "content-disposition";
import { Hono, type Context as Request } from "hono";
import type { OriginalKind } from "#domain/capture/capture.ts";
import { type CaptureWithOriginal, findCapture } from "#drizzle/queries/captures.ts";
import { originalPath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import type { DerivedName } from "../images/derive.ts";
import { derivedPicture } from "../images/derived-picture.ts";
import { answerCloseUp } from "./close-up.ts";
import { idIn } from "./form.ts";

/** Small pictures for the screen, made when they are first asked for, and originals as they came. */
export function imageRoutes(context: Context): Hono {
  const capture = (c: Request): CaptureWithOriginal | null => {
    const id = idIn(c);
    return id === null ? null : findCapture(context.db, id);
  };

  const showDerived = async (c: Request, name: DerivedName) => {
    const found = capture(c);
    if (!found) return c.notFound();
    c.header("ETag", tagOf(found, name));
    // another collection may answer at the same address tomorrow, so the browser asks each time
    c.header("Cache-Control", "private, no-cache");
    if (c.req.header("if-none-match") === tagOf(found, name)) return c.body(null, 304);
    const bytes = await derivedPicture(context, found, name);
    return bytes ? c.body(bytes, 200, { "Content-Type": "image/jpeg" }) : c.notFound();
  };

  return new Hono()
    .get("/captures/:id{[0-9]+}/thumbnail.jpg", (c) => showDerived(c, "thumbnail.jpg"))

    .get("/captures/:id{[0-9]+}/view.jpg", (c) => showDerived(c, "view.jpg"))

    .get("/captures/:id{[0-9]+}/close-up.jpg", (c) => {
      const found = capture(c);
      return found ? answerCloseUp(context, c, found.original, found.region) : c.notFound();
    })

    .get("/captures/:id{[0-9]+}/original", async (c) => {
      const original = capture(c)?.original;
      if (!original) return c.notFound();
      const path = originalPath(context.folder, original.sha256);
      const file = await stat(path).catch(() => null);
      if (!file) return c.notFound();
      c.header("Content-Type", MEDIA_TYPES[original.kind]);
      c.header("Content-Length", String(file.size));
      c.header("Content-Disposition", contentDisposition(original.originalName));
      c.header("Cache-Control", "private, no-cache");
      if (c.req.method === "HEAD") return c.body(null);
      return c.body(Readable.toWeb(createReadStream(path)) as ReadableStream);
    });
}

export const MEDIA_TYPES: Readonly<Record<OriginalKind, string>> = {
  jpeg: "image/jpeg",
  png: "image/png",
  webp: "image/webp",
  avif: "image/avif",
  tiff: "image/tiff",
  heic: "image/heic",
  raw: "application/octet-stream",
};

/** What the picture is made from, and nothing else, decides whether it is still the same. */
function tagOf({ id, original, region }: CaptureWithOriginal, name: DerivedName): string {
  const part = region ? `-${region.left}-${region.top}-${region.width}-${region.height}` : "";
  return `"${id}-${original.sha256.slice(0, 32)}${part}-${name}"`;
}
