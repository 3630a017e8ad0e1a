import { Hono, type Context as Request } from "hono";
import { cautionsFor } from "#domain/condition/cautions-for.ts";
import { resultOf, roundInput, sampleInput } from "#domain/condition/round.ts";
import { surveyInput } from "#domain/condition/survey-input.ts";
import { termsFor } from "#domain/condition/terms.ts";
import type { Refusal } from "#domain/outcome.ts";
import { ALL_PRINTS } from "#domain/print/print-filter.ts";
import { flatten, pathInWords, placeTree } from "#domain/storage/place-tree.ts";
import { listCapturesOfPrint } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import { findPrint, listPrints } from "#drizzle/queries/prints.ts";
import { findRound, linesOfRound, listRounds, type RoundListed } from "#drizzle/queries/rounds.ts";
import { lastLookedAtBy, lastSurvey } from "#drizzle/queries/surveys.ts";
import { RoundPage } from "#views/pages/round.tsx";
import { RoundLookPage } from "#views/pages/round-look.tsx";
import { RoundsPage } from "#views/pages/rounds.tsx";
import { type FormState, NOTHING_TYPED, type Typed } from "#views/parts/field.tsx";
import { lookInRound, nextInRound, passInRound } from "../actions/look-in-round.ts";
import { standingFindings } from "../actions/record-survey.ts";
import { startRound, startSample } from "../actions/start-round.ts";
import { circumstancesOfPrint } from "../circumstances-of-print.ts";
import type { Context } from "../context.ts";
import { idIn, readForm, refusalsOf } from "./form.ts";
import { shownSidePictures } from "./shown-side-pictures.ts";
import { sentRows, typedAgain } from "./survey-rows.ts";

/** Prints looked at one after another: every print of a place, or a sample. */
export function roundRoutes(context: Context): Hono {
  const round = (c: Request): RoundListed | null => {
    const id = idIn(c);
    return id === null ? null : findRound(context.db, id);
  };

  const showRounds = (c: Request, status: 200 | 422, form: FormState) =>
    c.html(
      RoundsPage({
        collectionName: readCollection(context.db).name,
        rounds: listRounds(context.db),
        places: flatten(placeTree(listPlaces(context.db))).map(({ id, path, printCountInside }) => ({
          id,
          name: pathInWords(path),
          prints: printCountInside,
        })),
        population: listPrints(context.db, { ...ALL_PRINTS, perPage: 1 }).total,
        form,
      }),
      status,
    );

  const showLook = (c: Request, of: RoundListed, status: 200 | 422, sent: { printId: number; form: FormState } | null) => {
    const next = nextInRound(context, of.id);
    if (!next) return c.redirect(`/rounds/${of.id}?done=round-through`, 303);
    const print = findPrint(context.db, sent?.printId ?? next.printId);
    if (!print) return c.redirect(`/rounds/${of.id}`, 303);
    const today = context.now().slice(0, 10);
    const standing = standingFindings(context.db, print.id);
    const captures = listCapturesOfPrint(context.db, print.id);
    const lookedAtBy = lastLookedAtBy(context.db) ?? "";
    return c.html(
      RoundLookPage({
        collectionName: readCollection(context.db).name,
        round: of,
        number: next.number,
        print,
        cautions: cautionsFor(circumstancesOfPrint(context.db, print, today, standing)),
        lastSurveyId: lastSurvey(context.db, print.id)?.id ?? null,
        standing,
        terms: termsFor(print.processId),
        pictures: shownSidePictures(context, print),
        captureId: captures[0]?.id ?? null,
        form: { typed: typedAgain(sent?.form.typed ?? { lookedAtBy }, standing), refusals: sent?.form.refusals ?? [] },
        isAnswer: sent !== null,
      }),
      status,
    );
  };

  return new Hono()
    .get("/rounds", (c) => showRounds(c, 200, NOTHING_TYPED))

    .post("/rounds", async (c) => {
      const typed = await readForm(c);
      const refuse = (refusals: readonly Refusal[]) => showRounds(c, 422, { typed, refusals });
      if (typed.kind === "sample") {
        const read = sampleInput.safeParse(typed);
        if (!read.success) return refuse(refusalsOf(read.error));
        const made = startSample(context, read.data);
        return made.ok ? c.redirect(`/rounds/${made.value.roundId}`, 303) : refuse(made.refusals);
      }
      const read = roundInput.safeParse(typed);
      if (!read.success) return refuse(refusalsOf(read.error));
      const made = startRound(context, read.data);
      return made.ok ? c.redirect(`/rounds/${made.value.roundId}/look`, 303) : refuse(made.refusals);
    })

    .get("/rounds/:id{[0-9]+}", (c) => {
      const found = round(c);
      if (!found) return c.notFound();
      const lines = linesOfRound(context.db, found.id);
      const looks = lines.filter(({ surveyId }) => surveyId !== null);
      return c.html(
        RoundPage({
          collectionName: readCollection(context.db).name,
          round: found,
          lines,
          result: found.sample ? resultOf(found.sample, looks) : null,
          done: c.req.query("done"),
        }),
      );
    })

    .get("/rounds/:id{[0-9]+}/look", (c) => {
      const found = round(c);
      return found ? showLook(c, found, 200, null) : c.notFound();
    })

    .post("/rounds/:id{[0-9]+}/look", async (c) => {
      const found = round(c);
      if (!found) return c.notFound();
      const typed = await readForm(c);
      const of = { roundId: found.id, printId: Number(typed.print) };
      const made = look(of, typed);
      if (made === null) return c.redirect(`/rounds/${found.id}/look`, 303);
      return showLook(c, found, 422, { printId: of.printId, form: { typed, refusals: made } });
    });

  /** Null when it is kept and the next can come. */
  function look(of: { roundId: number; printId: number }, typed: Typed): readonly Refusal[] | null {
    if (typed.step === "pass") return refusals(passInRound(context, of));
    if (typed.step === "same") {
      const same = surveyInput.pick({ lookedAtBy: true }).safeParse(typed);
      return same.success ? refusals(lookInRound(context, of, { same: same.data })) : refusalsOf(same.error);
    }
    const today = context.now().slice(0, 10);
    const sent = { ...typed, surveyedOn: today, rejudged: sentRows(typed, "rejudged"), found: sentRows(typed, "found") };
    const read = surveyInput.safeParse(sent);
    return read.success ? refusals(lookInRound(context, of, read.data)) : refusalsOf(read.error);
  }
}

const refusals = (made: { ok: true } | { ok: false; refusals: readonly Refusal[] }): readonly Refusal[] | null =>
  made.ok ? null : made.refusals;
