import { Hono } from "hono";
import { readCollection } from "#drizzle/queries/collection.ts";
import type { Context } from "../context.ts";

/** Says "ready" once the database answers. */
export const healthRoutes = (context: Context): Hono =>
  new Hono().get("/healthz", (c) => {
    readCollection(context.db);
    c.header("Cache-Control", "no-store");
    return c.text("ready\n");
  });
