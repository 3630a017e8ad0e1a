import { createHash } from "node:crypto";
import path from "node:path";
import { create as contentDisposition } from "content-disposition";
import { Hono, type Context as Request } from "hono";
import { SIDES } from "#domain/capture/capture.ts";
import { ANNOTATION_TYPE, annotationPage } from "#domain/condition/annotations.ts";
import { sidePictureSize } from "#domain/condition/side-picture.ts";
import { sheetSize } from "#domain/print/dimensions.ts";
import { findCapture } from "#drizzle/queries/captures.ts";
import { annotatedFindings } from "#drizzle/queries/findings.ts";
import type { Context } from "../context.ts";
import { sheetOfCapture } from "../images/sheet-of-capture.ts";
import { type SheetToShow, sidePicture } from "../images/side-picture.ts";
import { canBeShown, sideToShow } from "../images/side-to-show.ts";
import { wholeSheet } from "../images/whole-sheet.ts";
import { idIn } from "./form.ts";
import { keptPrintIn } from "./kept-print.ts";

/** Sheets straightened: a print's sides on its own mm grid, those of one capture; and the places marked on them for other programs. */
export function sidePictureRoutes(context: Context): Hono {
  const keptPrint = (c: Request) => keptPrintIn(context, c);

  const send = async (c: Request, shown: SheetToShow) => {
    c.header("ETag", tagOf(shown));
    c.header("Cache-Control", "private, no-cache");
    if (c.req.header("if-none-match") === tagOf(shown)) return c.body(null, 304);
    const straight = await sidePicture(context, shown);
    return straight ? c.body(new Uint8Array(straight), 200, { "Content-Type": "image/jpeg" }) : c.notFound();
  };

  return new Hono()
    .get("/prints/:id{[0-9]+}/sides/:side{(front|back)\\.jpg}", async (c) => {
      const print = keptPrint(c);
      const side = SIDES.find((each) => `${each}.jpg` === c.req.param("side"));
      const shown = print && side ? sideToShow(context, print, side) : null;
      if (!shown || !canBeShown(shown)) return c.notFound();
      return send(c, shown);
    })

    .get("/captures/:id{[0-9]+}/sheets/:part{[1-9][0-9]?\\.jpg}", async (c) => {
      const id = idIn(c);
      const capture = id === null ? null : findCapture(context.db, id);
      const shown = capture && sheetOfCapture(context, capture, Number.parseInt(c.req.param("part"), 10));
      return shown ? send(c, shown) : c.notFound();
    })

    .get("/captures/:id{[0-9]+}/sheets/:part{[1-9][0-9]?\\.png}", async (c) => {
      const id = idIn(c);
      const capture = id === null ? null : findCapture(context.db, id);
      const shown = capture && sheetOfCapture(context, capture, Number.parseInt(c.req.param("part"), 10));
      if (!shown) return c.notFound();
      const tag = tagOf(shown, shown.sheetMm, shown.radial);
      const kept = { ETag: tag, "Cache-Control": "private, no-cache" };
      if (c.req.header("if-none-match") === tag) return c.body(null, 304, kept);
      const whole = await wholeSheet(context, shown);
      if (!whole) return c.notFound();
      if ("fault" in whole) return c.text(NOT_MADE, 503);
      const name = `${path.parse(shown.capture.name).name} straightened.png`;
      c.header("Content-Disposition", contentDisposition(name, { type: "inline" }));
      return c.body(whole, 200, { ...kept, "Content-Type": "image/png" });
    })

    .get("/prints/:id{[0-9]+}/annotations.json", (c) => {
      const print = keptPrint(c);
      if (!print) return c.notFound();
      const { origin } = new URL(c.req.url);
      const sheet = sheetSize(print);
      // without a size no scale: a millimetre is a pixel
      const pxPerMm = sheet ? sidePictureSize(sheet).pxPerMm : 1;
      const annotated = annotatedFindings(context.db, print.id).map(({ uuid, at, ...finding }) => ({
        finding,
        uuid,
        at,
        picture: { address: `${origin}/prints/${print.id}/sides/${finding.side}.jpg`, pxPerMm },
      }));
      const page = annotationPage(`${origin}/prints/${print.id}/annotations.json`, annotated);
      return c.body(JSON.stringify(page, null, 1), 200, { "Content-Type": ANNOTATION_TYPE });
    });
}

const NOT_MADE =
  'The sheet was not straightened: it took too long, or the program was being closed. Try again while nothing is measured, or write it by the command "divide --straightened".\n';

function tagOf({ capture, quad, size }: SheetToShow, ...more: unknown[]): string {
  const hash = createHash("sha256").update(JSON.stringify([capture.original.sha256, capture.region, quad, size, ...more]));
  return `"${hash.digest("base64url").slice(0, 32)}"`;
}
