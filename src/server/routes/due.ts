import { Hono } from "hono";
import { flatten, pathInWords, placeTree } from "#domain/storage/place-tree.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { dueLines, neverLooked } from "#drizzle/queries/due.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import { DuePage } from "#views/pages/due.tsx";
import type { Context } from "../context.ts";

const MOST_NEVER = 50;
const MOST_DUE = 500;

/** What asks to be looked at again, and by when. */
export const dueRoutes = (context: Context): Hono =>
  new Hono().get("/due", (c) => {
    const places = flatten(placeTree(listPlaces(context.db)));
    const asked = Number(c.req.query("place"));
    const placeId = places.find(({ id }) => id === asked)?.id ?? null;
    const today = context.now().slice(0, 10);
    const lines = dueLines(context.db, { placeId });
    const due = lines.filter(({ dueOn }) => dueOn <= today);
    return c.html(
      DuePage({
        collectionName: readCollection(context.db).name,
        today,
        places: places.map(({ id, path }) => ({ id, name: pathInWords(path) })),
        placeId,
        dueCount: due.length,
        due: due.slice(0, MOST_DUE),
        later: lines.filter(({ dueOn }) => dueOn > today).slice(0, MOST_NEVER),
        laterCount: lines.length - due.length,
        never: neverLooked(context.db, { placeId }, MOST_NEVER),
      }),
    );
  });
