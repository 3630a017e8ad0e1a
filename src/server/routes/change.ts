import { readFile } from "node:fs/promises";
import { Hono, type Context as Request } from "hono";
import { SIDES, type Side } from "#domain/capture/capture.ts";
import { type CaptureWithOriginal, listCapturesOfPrint } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { ChangePage, type DatedChange } from "#views/pages/change.tsx";
import { holdAgainst, keptChange } from "../actions/hold-captures-against.ts";
import { changePath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import { keptPrintIn } from "./kept-print.ts";

/** How a print changed between two of its captures. */
export function changeRoutes(context: Context): Hono {
  const keptPrint = (c: Request) => keptPrintIn(context, c);

  return new Hono()
    .get("/prints/:id{[0-9]+}/change", async (c) => {
      const print = keptPrint(c);
      if (!print) return c.notFound();
      const all = listCapturesOfPrint(context.db, print.id);
      const side = SIDES.find((each) => each === c.req.query("side")) ?? "front";
      const captures = byDay(all, side);
      const named = (name: string) => captures.find(({ id }) => String(id) === c.req.query(name));
      const [older, newer] = [named("older") ?? captures[0], named("newer") ?? captures.at(-1)];
      const asked = c.req.query("newer") !== undefined && older && newer && older !== newer ? { older, newer } : null;
      const held = asked && (await holdAgainst(context, asked));
      return c.html(
        ChangePage({
          collectionName: readCollection(context.db).name,
          print,
          sides: SIDES.filter((each) => all.some((capture) => capture.side === each)),
          side,
          captures,
          olderId: older?.id ?? null,
          newerId: newer?.id ?? null,
          isSame: c.req.query("newer") !== undefined && older !== undefined && older === newer,
          held,
          series: held ? await changesSinceFirst(captures) : [],
        }),
      );
    })

    .get("/prints/:id{[0-9]+}/change/:older{[0-9]+}/:newer{[0-9]+}/:name{(older|newer)\\.jpg}", async (c) => {
      const print = keptPrint(c);
      const ids = print ? listCapturesOfPrint(context.db, print.id).map(({ id }) => id) : [];
      const [olderId, newerId] = [Number(c.req.param("older")), Number(c.req.param("newer"))];
      if (!ids.includes(olderId) || !ids.includes(newerId)) return c.notFound();
      const name = c.req.param("name") === "older.jpg" ? "older.jpg" : "newer.jpg";
      const bytes = await readFile(changePath(context.folder, { olderId, newerId }, name)).catch(() => null);
      c.header("Cache-Control", "private, no-cache");
      return bytes ? c.body(new Uint8Array(bytes), 200, { "Content-Type": "image/jpeg" }) : c.notFound();
    });

  /** Every dated capture against the oldest dated one, as far as they have been held against each other. */
  async function changesSinceFirst(captures: readonly CaptureWithOriginal[]): Promise<DatedChange[]> {
    const dated = captures.filter(({ original }) => original.capturedAt !== null);
    const [first, ...later] = dated;
    if (!first) return [];
    const changes = await Promise.all(later.map((newer) => keptChange(context, { older: first, newer })));
    return later.map((capture, index) => ({ first, capture, held: changes[index] ?? null }));
  }
}

/** Oldest first; those of which no day is known after all others. */
const byDay = (captures: readonly CaptureWithOriginal[], side: Side): CaptureWithOriginal[] => {
  const dayOf = ({ original }: CaptureWithOriginal) => original.capturedAt ?? "9999";
  return captures
    .filter((capture) => capture.side === side)
    .sort((a, b) => (dayOf(a) < dayOf(b) ? -1 : dayOf(a) > dayOf(b) ? 1 : a.id - b.id));
};
