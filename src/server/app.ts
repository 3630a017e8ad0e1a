import { Hono } from "hono";
import { csrf } from "hono/csrf";
import type { Context } from "./context.ts";
import { assetRoutes } from "./routes/assets.ts";
import { binRoutes } from "./routes/bin.ts";
import { collectionRoutes } from "./routes/collection.ts";
import { healthRoutes } from "./routes/health.ts";
import { placeRoutes } from "./routes/places.ts";
import { printRoutes } from "./routes/prints.ts";
import { answerNotFound, answerProblem } from "./routes/problems.ts";
import { boundedBodies } from "./security/bounded-bodies.ts";
import { headers } from "./security/headers.ts";
import { ownHostOnly } from "./security/own-host-only.ts";

/**
 * The whole of the web face. Guards stand before every route; a route that wants to be let off
 * says so where the guard is.
 * @param options.hostNames names besides localhost that this server answers to
 */
export function createApp(context: Context, options: { hostNames?: readonly string[] } = {}): Hono {
  const app = new Hono();
  app.use(headers);
  app.use(ownHostOnly(options.hostNames ?? []));
  app.use(csrf());
  app.use(boundedBodies);
  app.route("/", assetRoutes());
  app.route("/", healthRoutes(context));
  app.route("/", printRoutes(context));
  app.route("/", binRoutes(context));
  app.route("/", collectionRoutes(context));
  app.route("/", placeRoutes(context));
  app.notFound((c) => answerNotFound(context, c));
  app.onError((error, c) => answerProblem(context, error, c));
  return app;
}
