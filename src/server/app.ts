import { Hono } from "hono";
import { csrf } from "hono/csrf";
import type { Context } from "./context.ts";
import { assetRoutes } from "./routes/assets.ts";
import { binRoutes } from "./routes/bin.ts";
import { captureRoutes } from "./routes/captures.ts";
import { careRoutes } from "./routes/care.ts";
import { changeRoutes } from "./routes/change.ts";
import { climateRoutes } from "./routes/climate.ts";
import { collectionRoutes } from "./routes/collection.ts";
import { comparisonRoutes } from "./routes/comparison.ts";
import { displayRoutes } from "./routes/displays.ts";
import { dueRoutes } from "./routes/due.ts";
import { fixityRoutes } from "./routes/fixity.ts";
import { healthRoutes } from "./routes/health.ts";
import { imageRoutes } from "./routes/images.ts";
import { inventoryRoutes } from "./routes/inventory.ts";
import { labelRoutes } from "./routes/labels.ts";
import { likelyPrintRoutes } from "./routes/likely-prints.ts";
import { methodRoutes } from "./routes/methods.ts";
import { outlineRoutes } from "./routes/outlines.ts";
import { overviewRoutes } from "./routes/overview.ts";
import { photographRoutes } from "./routes/photographs.ts";
import { placeRoutes } from "./routes/places.ts";
import { planRoutes } from "./routes/plan.ts";
import { printPageRoutes } from "./routes/print-page.ts";
import { printRoutes } from "./routes/prints.ts";
import { answerNotFound, answerProblem } from "./routes/problems.ts";
import { purposeRoutes } from "./routes/purposes.ts";
import { recaptureRoutes } from "./routes/recapture.ts";
import { roundRoutes } from "./routes/rounds.ts";
import { setUpRoutes } from "./routes/set-ups.ts";
import { sidePictureRoutes } from "./routes/side-pictures.ts";
import { surveyRoutes } from "./routes/surveys.ts";
import { takeInRoutes } from "./routes/take-in.ts";
import { trayRoutes } from "./routes/tray.ts";
import { workRoutes } from "./routes/work.ts";
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
  app.route("/", labelRoutes(context));
  app.route("/", likelyPrintRoutes(context));
  app.route("/", binRoutes(context));
  app.route("/", collectionRoutes(context));
  app.route("/", placeRoutes(context));
  app.route("/", careRoutes(context));
  app.route("/", climateRoutes(context));
  app.route("/", displayRoutes(context));
  app.route("/", captureRoutes(context));
  app.route("/", fixityRoutes(context));
  app.route("/", changeRoutes(context));
  app.route("/", comparisonRoutes(context));
  app.route("/", imageRoutes(context));
  app.route("/", inventoryRoutes(context));
  app.route("/", methodRoutes(context));
  app.route("/", outlineRoutes(context));
  app.route("/", overviewRoutes(context));
  app.route("/", planRoutes(context));
  app.route("/", photographRoutes(context));
  app.route("/", printPageRoutes(context));
  app.route("/", purposeRoutes(context));
  app.route("/", recaptureRoutes(context));
  app.route("/", setUpRoutes(context));
  app.route("/", dueRoutes(context));
  app.route("/", roundRoutes(context));
  app.route("/", sidePictureRoutes(context));
  app.route("/", surveyRoutes(context));
  app.route("/", takeInRoutes(context));
  app.route("/", trayRoutes(context));
  app.route("/", workRoutes(context));
  app.notFound((c) => answerNotFound(context, c));
  app.onError((error, c) => answerProblem(context, error, c));
  return app;
}
