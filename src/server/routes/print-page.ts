import { Hono, type Context as Request } from "hono";
import type { Aim } from "#domain/aim/aim.ts";
import { SIDES, type Side } from "#domain/capture/capture.ts";
import { answersFor, cautionsFor } from "#domain/condition/cautions-for.ts";
import { livesOf } from "#domain/condition/finding.ts";
import { stopsOf } from "#domain/condition/method-stop.ts";
import { nextSurvey } from "#domain/condition/next-survey.ts";
import { overruleInput, releaseInput } from "#domain/master/schema.ts";
import type { Print } from "#domain/print/print.ts";
import { lightBudgetOf, lightDose } from "#domain/storage/light-budget.ts";
import { flatten, pathInWords, placeTree } from "#domain/storage/place-tree.ts";
import { currentAims } from "#drizzle/queries/aims.ts";
import { listCapturesOfPrint } from "#drizzle/queries/captures.ts";
import { earlierChoices, listChoicesOfPrint } from "#drizzle/queries/choices.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { displaysOfPrint } from "#drizzle/queries/displays.ts";
import { historyOfPrint } from "#drizzle/queries/events.ts";
import { photographsOfPrint } from "#drizzle/queries/finding-photographs.ts";
import { judgementsOfPrint, latestFindings } from "#drizzle/queries/findings.ts";
import { damageOfOriginals } from "#drizzle/queries/fixity.ts";
import { readingsOfCaptures } from "#drizzle/queries/measures.ts";
import { listPlaces, placePath } from "#drizzle/queries/places.ts";
import { listOpenProposals } from "#drizzle/queries/proposals.ts";
import { listSetUps } from "#drizzle/queries/set-ups.ts";
import { lastSurvey } from "#drizzle/queries/surveys.ts";
import { measuringOfCaptures, workProgress } from "#drizzle/queries/work-progress.ts";
import { type Overruling, PrintPage, type ShownSide } from "#views/pages/print.tsx";
import type { DamagedCapture } from "#views/parts/damaged-files.tsx";
import { overruleMaster } from "../actions/overrule-master.ts";
import { releaseMaster } from "../actions/release-master.ts";
import { circumstancesOfPrint } from "../circumstances-of-print.ts";
import { climateRisks } from "../climate/climate-risks.ts";
import type { Context } from "../context.ts";
import { waitingFor } from "../waiting-captures.ts";
import { readForm, refusalsOf } from "./form.ts";
import { keptPrintIn } from "./kept-print.ts";
import { measuringInWords } from "./measuring-in-words.ts";
import { shownSidePictures } from "./shown-side-pictures.ts";

export function printPageRoutes(context: Context): Hono {
  const keptPrint = (c: Request) => keptPrintIn(context, c);

  const show = (c: Request, print: Print, status: 200 | 422, overruling: Overruling | null) => {
    const aims = currentAims(context.db);
    const aim = aims.find((each) => each.purpose.key === c.req.query("purpose")) ?? aims[0];
    const today = context.now().slice(0, 10);
    const circumstances = circumstancesOfPrint(context.db, print, today, latestFindings(context.db, [print.id]).get(print.id));
    return c.html(
      PrintPage({
        collectionName: readCollection(context.db).name,
        print,
        placePath: print.placeId === null ? [] : placePath(context.db, print.placeId),
        placeNames: new Map(flatten(placeTree(listPlaces(context.db))).map((place) => [place.id, pathInWords(place.path)])),
        cautions: cautionsFor(circumstances),
        keptFrom: stopsOf(circumstances),
        actions: answersFor(circumstances),
        waiting: waitingFor(context, print.objectNumber),
        damaged: damagedCaptures(context, print.id),
        condition: conditionOf(context, print, today),
        climate: climateRisks(context)(print.placeId, print.processId),
        light: lightOf(context, print, today),
        sides: sidesOf(context, print.id, aims),
        aims,
        foldsMeasures: c.req.query("purpose") === undefined,
        purposeKey: overruling?.purposeKey ?? aim?.purpose.key ?? "",
        history: historyOfPrint(context.db, print.id),
        work: workProgress(context.db),
        overruling,
        done: c.req.query("done"),
      }),
      status,
    );
  };

  return new Hono()
    .get("/prints/:id{[0-9]+}", (c) => {
      const print = keptPrint(c);
      return print ? show(c, print, 200, null) : c.notFound();
    })

    .post("/prints/:id{[0-9]+}/master", async (c) => {
      const print = keptPrint(c);
      if (!print) return c.notFound();
      const typed = await readForm(c);
      const read = overruleInput.safeParse(typed);
      const refused = (refusals: Overruling["form"]["refusals"]) =>
        show(c, print, 422, { side: typed.side ?? "", purposeKey: typed.purposeKey ?? "", form: { typed, refusals } });
      if (!read.success) return refused(refusalsOf(read.error));
      const made = overruleMaster(context, { ...read.data, printId: print.id });
      if (!made.ok) return refused(made.refusals);
      return c.redirect(`/prints/${print.id}?done=master-overruled#master-${read.data.side}-${read.data.purposeKey}`, 303);
    })

    .post("/prints/:id{[0-9]+}/master/release", async (c) => {
      const print = keptPrint(c);
      if (!print) return c.notFound();
      const read = releaseInput.safeParse(await readForm(c));
      if (!read.success) return show(c, print, 422, null);
      const released = releaseMaster(context, { ...read.data, printId: print.id });
      const done = released.ok ? "master-released" : "master-with-rule";
      return c.redirect(`/prints/${print.id}?done=${done}#master-${read.data.side}-${read.data.purposeKey}`, 303);
    });
}

function damagedCaptures(context: Context, printId: number): DamagedCapture[] {
  const captures = listCapturesOfPrint(context.db, printId);
  const damage = damageOfOriginals(
    context.db,
    captures.map((capture) => capture.originalId),
  );
  return captures.flatMap(({ id, name, originalId }) => {
    const outcome = damage.get(originalId);
    return outcome ? [{ id, name, outcome }] : [];
  });
}

function lightOf(context: Context, print: Print, today: string) {
  const displays = displaysOfPrint(context.db, print.id);
  const budget = lightBudgetOf(print.processId);
  return { budget, dose: lightDose(displays, budget, today), isLogged: displays.length > 0 };
}

/** The sides that were ever captured, each with its captures and what holds for it. */
function sidesOf(context: Context, printId: number, aims: readonly Aim[]): ShownSide[] {
  const captures = listCapturesOfPrint(context.db, printId);
  const ids = captures.map((capture) => capture.id);
  const readings = readingsOfCaptures(context.db, ids);
  const measuring = measuringOfCaptures(context.db, ids);
  const setUpNames = new Map(listSetUps(context.db).map((setUp) => [setUp.id, setUp.name]));
  const choices = listChoicesOfPrint(context.db, printId);
  const earlier = earlierChoices(context.db, printId);
  const proposals = listOpenProposals(context.db, { printId });
  const ofSide = (side: Side): ShownSide => ({
    side,
    captures: captures
      .filter((capture) => capture.side === side)
      .map((capture) => ({
        ...capture,
        readings: readings.get(capture.id) ?? [],
        setUpName: capture.setUpId === null ? null : (setUpNames.get(capture.setUpId) ?? null),
        notMeasured: measuringInWords(measuring.get(capture.id)),
      })),
    earlier: earlier.filter((choice) => choice.side === side),
    proposals: proposals.filter((proposal) => proposal.side === side),
    choices: choices.filter((choice) => choice.side === side && aims.some((aim) => aim.purpose.id === choice.purpose.id)),
  });
  return SIDES.map(ofSide).filter((shown) => shown.captures.length > 0);
}

function conditionOf(context: Context, print: Print, today: string) {
  const survey = lastSurvey(context.db, print.id);
  const lives = livesOf(judgementsOfPrint(context.db, print.id));
  const findings = latestFindings(context.db, [print.id]).get(print.id) ?? [];
  const next = survey ? nextSurvey({ ...survey, processId: print.processId, findings }) : null;
  return { survey, lives, pictures: shownSidePictures(context, print), photographs: photographsOfPrint(context.db, print.id), next, today };
}
