import { Hono } from "hono";
import { WAYS_BY } from "#domain/methods/way.ts";
import { listPurposes } from "#drizzle/queries/aims.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { MethodsPage } from "#views/pages/methods.tsx";
import { compareMethods } from "../actions/compare-methods.ts";
import type { Context } from "../context.ts";

/** Ways of capturing against each other, from the captures that are there. */
export const methodRoutes = (context: Context): Hono =>
  new Hono().get("/methods", (c) => {
    const compared = compareMethods(context, {
      purposeKey: c.req.query("purpose") ?? null,
      by: WAYS_BY.find((each) => each === c.req.query("by")) ?? "method",
      first: c.req.query("first") ?? null,
      second: c.req.query("second") ?? null,
    });
    return c.html(MethodsPage({ collectionName: readCollection(context.db).name, purposes: listPurposes(context.db), ...compared }));
  });
