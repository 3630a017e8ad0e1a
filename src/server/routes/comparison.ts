import { readFile } from "node:fs/promises";
import path from "node:path";
import { Hono, type Context as Request } from "hono";
import { purposeInSentence } from "#domain/aim/aim.ts";
import { frameOf, SIDES, type Side, stands } from "#domain/capture/capture.ts";
import { CLOSE_UPS } from "#domain/comparison/close-up-places.ts";
import type { LaidSide } from "#domain/comparison/laid-side.ts";
import { focusProfiles, lightnessCurve, meanSfr, streakProfiles } from "#domain/comparison/plot-lines.ts";
import { measuredOutline } from "#domain/measure/kept-outlines.ts";
import type { Print } from "#domain/print/print.ts";
import { type CaptureWithOriginal, findCapture, listCapturesOfPrint } from "#drizzle/queries/captures.ts";
import { listChoicesOfPrint } from "#drizzle/queries/choices.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findMeasureSet, readingsOfCaptures } from "#drizzle/queries/measures.ts";
import { ComparisonPage } from "#views/pages/comparison.tsx";
import type { LookedAt } from "#views/parts/comparison-panes.tsx";
import { OVERLAY_LABELS } from "#views/parts/overlays.tsx";
import { forgetRefusal, keptLaidSide, laySideOfPrint } from "../actions/lay-side-of-print.ts";
import { laidFolder } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import { closeUpName, closeUpOfLaid } from "../images/close-up-of-laid.ts";
import { inTurn } from "../images/derived-picture.ts";
import { TILE, tileLevels, tilePath } from "../images/tiles.ts";
import { laidOverlays, UNITS_PER_MM } from "../overlays/laid-overlays.ts";
import { shownOverlays } from "../overlays/shown-overlays.ts";
import { areasOf } from "../work/areas-file.ts";
import { readForm } from "./form.ts";
import { keptPrintIn } from "./kept-print.ts";

/** As many as can be told apart side by side. */
const MOST_LOOKED_AT = 4;

/** Captures of one side of a print looked at together, each laid on the print's own mm grid. */
export function comparisonRoutes(context: Context): Hono {
  const keptPrint = (c: Request) => keptPrintIn(context, c);

  /** The folder that a picture lies in; null where it is not of a capture of this print, or the print is in the bin. */
  const folderOf = (c: Request): { folder: string; captureId: number } | null => {
    const print = keptPrint(c);
    const captureId = Number(c.req.param("capture"));
    const capture = print && Number.isSafeInteger(captureId) ? findCapture(context.db, captureId) : null;
    if (!print || capture?.printId !== print.id || !stands(capture)) return null;
    return { folder: laidFolder(context.folder, { printId: print.id, side: capture.side }, c.req.param("basis") ?? ""), captureId };
  };

  const sendJpeg = (c: Request, bytes: Uint8Array | null) => {
    if (!bytes) return c.notFound();
    // its address names what it rests on, so it never changes
    c.header("Cache-Control", "private, max-age=86400, immutable");
    return c.body(new Uint8Array(bytes), 200, { "Content-Type": "image/jpeg" });
  };

  const PICTURES = "/prints/:id{[0-9]+}/compare/:basis{[0-9a-f]{32}}/:capture{[0-9]{1,15}}";

  return new Hono()
    .get("/prints/:id{[0-9]+}/compare", async (c) => {
      const print = keptPrint(c);
      if (!print) return c.notFound();
      const all = listCapturesOfPrint(context.db, print.id);
      const side = SIDES.find((each) => each === c.req.query("side")) ?? "front";
      const captures = all.filter((capture) => capture.side === side);
      const laying = await laySideOfPrint(context, print, side);
      const asked = (c.req.queries("capture") ?? []).map(Number);
      const looked = "laid" in laying ? await lookedAt(print, side, captures, asked, laying) : [];
      return c.html(
        ComparisonPage({
          collectionName: readCollection(context.db).name,
          address: `${c.req.path}${new URL(c.req.url).search}`,
          print,
          side,
          otherSides: SIDES.filter((each) => each !== side && all.filter((capture) => capture.side === each).length > 1),
          captures,
          laying,
          looked,
          isMatched: c.req.query("tone") === "matched",
          drawn: (c.req.query("drawn") ?? "").split(",").filter((id) => Object.hasOwn(OVERLAY_LABELS, id)),
          unitsPerMm: UNITS_PER_MM,
        }),
      );
    })

    .post("/prints/:id{[0-9]+}/compare/again", async (c) => {
      const print = keptPrint(c);
      if (!print) return c.notFound();
      const asked = await readForm(c);
      const side = SIDES.find((each) => each === asked.side) ?? "front";
      forgetRefusal(context, print, side);
      return c.redirect(`/prints/${print.id}/compare?side=${side}`, 303);
    })

    .get(`${PICTURES}/whole.jpg`, async (c) => {
      const found = folderOf(c);
      return sendJpeg(c, found && (await readFile(path.join(found.folder, `${found.captureId}.jpg`)).catch(() => null)));
    })

    .get(`${PICTURES}/close-ups/:kind{[a-z]+\\.jpg}`, async (c) => {
      const found = folderOf(c);
      const kind = c.req.param("kind").replace(".jpg", "");
      return sendJpeg(c, found && (await closeUp(found, kind, c.req.query("tone") === "matched")));
    })

    .get(`${PICTURES}/tiles/:level{[0-9]{1,2}}/:tile{[0-9]{1,4}_[0-9]{1,4}\\.jpg}`, async (c) => {
      const found = folderOf(c);
      const [column, row] = (c.req.param("tile").match(/\d+/g) ?? []).map(Number) as [number, number];
      const file = found && path.join(found.folder, tilePath(String(found.captureId), Number(c.req.param("level")), column, row));
      return sendJpeg(c, file ? await readFile(file).catch(() => null) : null);
    });

  /** Brought to the reference's tones when that is asked for; as captured it was kept when the side was laid. */
  async function closeUp({ folder, captureId }: { folder: string; captureId: number }, asked: string, isMatched: boolean) {
    const kind = CLOSE_UPS.find((each) => each === asked);
    if (!kind) return null;
    if (!isMatched) return readFile(path.join(folder, closeUpName(captureId, kind))).catch(() => null);
    const laid = await keptLaidSide(folder);
    const capture = laid?.captures.find((each) => each.captureId === captureId);
    const place = laid?.closeUps.find((each) => each.kind === kind);
    return laid && capture && place ? inTurn(() => closeUpOfLaid(folder, laid, capture, place, capture.toneCurve)) : null;
  }

  /** Those asked for, as far as they are laid; else the masters, then the newest. */
  async function lookedAt(
    print: Print,
    side: Side,
    captures: readonly CaptureWithOriginal[],
    asked: readonly number[],
    { laid, basis }: { laid: LaidSide; basis: string },
  ): Promise<LookedAt[]> {
    const masters = listChoicesOfPrint(context.db, print.id).filter((choice) => choice.side === side);
    const masterFor = (id: number) => masters.filter(({ captureId }) => captureId === id).map(({ purpose }) => purposeInSentence(purpose));
    const rank = ({ captureId }: { captureId: number }) => (masterFor(captureId).length > 0 ? Number.POSITIVE_INFINITY : captureId);
    const wanted = laid.captures.filter(({ captureId }) => asked.includes(captureId));
    const chosen = (
      wanted.length > 1 ? wanted : laid.captures.toSorted((a, b) => (rank(b) > rank(a) ? 1 : -1)).slice(0, MOST_LOOKED_AT)
    ).slice(0, MOST_LOOKED_AT);
    const shown = laid.captures.filter((each) => chosen.includes(each));
    const readings = readingsOfCaptures(
      context.db,
      shown.map(({ captureId }) => captureId),
    );
    const all = shown.map(async (each, index): Promise<LookedAt | null> => {
      const capture = captures.find(({ id }) => id === each.captureId);
      if (!capture) return null;
      const [widthPx, heightPx] = [laid.canvas.widthMm * each.pxPerMm, laid.canvas.heightMm * each.pxPerMm];
      const read = readings.get(capture.id) ?? [];
      const outline = measuredOutline(findMeasureSet(context.db, capture.id, "alone"));
      const drawn = shownOverlays({
        frame: frameOf(capture),
        outline,
        readings: read,
        areas: await areasOf(context.folder, capture.id, read),
      });
      return {
        number: index + 1,
        capture,
        laid: each,
        pictures: `/prints/${print.id}/compare/${basis}/${each.captureId}`,
        tiles: { ...TILE, ...tileLevels(widthPx, heightPx), widthPx, heightPx },
        masterFor: masterFor(each.captureId),
        overlays: laidOverlays(drawn, each.sheetInFrame, laid.sheetMm, laid.canvas),
        plotted: {
          number: index + 1,
          label: `${index + 1} ${capture.name}`,
          sfr: meanSfr(read),
          lightness: lightnessCurve(each.lightnessShares),
          focus: outline && focusProfiles(read, outline.sheet, each.sheetInFrame, laid.sheetMm),
          streaks: streakProfiles(read),
        },
      };
    });
    return (await Promise.all(all)).filter((each) => each !== null);
  }
}
