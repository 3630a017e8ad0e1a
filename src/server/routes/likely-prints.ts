import { Hono } from "hono";
import { stands } from "#domain/capture/capture.ts";
import { findCapture } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { countUnrecognisable } from "#drizzle/queries/fingerprints.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import { type AlikeCapture, type LikelyPrint, LikelyPrintsPage } from "#views/pages/likely-prints.tsx";
import { recognisePrint } from "../actions/recognise-print.ts";
import type { Context } from "../context.ts";
import { idIn } from "./form.ts";

export function likelyPrintRoutes(context: Context): Hono {
  return new Hono().get("/captures/:id{[0-9]+}/likely-prints", async (c) => {
    const id = idIn(c);
    const capture = id === null ? null : findCapture(context.db, id);
    if (!capture || capture.printId !== null || !stands(capture)) return c.notFound();
    // read before the pictures are compared: the collection may be closed meanwhile
    const common = { collectionName: readCollection(context.db).name, capture, notCompared: countUnrecognisable(context.db) };
    const recognised = await recognisePrint(context, capture.id);
    if (!recognised.ok) return c.html(LikelyPrintsPage({ ...common, likely: null, waiting: [], refusals: recognised.refusals }), 503);
    const likely = recognised.value?.flatMap(({ printId, side, captureId, verdict }): LikelyPrint[] => {
      const print = printId === null ? null : findPrint(context.db, printId);
      const known = findCapture(context.db, captureId);
      return print && known ? [{ print, side, capture: known, isSure: verdict === "same" }] : [];
    });
    const waiting = recognised.value?.flatMap(({ printId, captureId, verdict }): AlikeCapture[] => {
      const other = printId === null ? findCapture(context.db, captureId) : null;
      return other ? [{ capture: other, isSure: verdict === "same" }] : [];
    });
    return c.html(LikelyPrintsPage({ ...common, likely: likely ?? null, waiting: waiting ?? [], refusals: [] }));
  });
}
