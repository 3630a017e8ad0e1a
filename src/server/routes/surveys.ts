import { Hono, type Context as Request } from "hono";
import { cautionsFor } from "#domain/condition/cautions-for.ts";
import { lastOf } from "#domain/condition/condition-now.ts";
import { type DatedFinding, livesOf } from "#domain/condition/finding.ts";
import type { FindingPhotograph } from "#domain/condition/finding-photograph.ts";
import { type ProposedGrade, proposedGrade } from "#domain/condition/grade.ts";
import { judgements } from "#domain/condition/judgements.ts";
import { surveyInput } from "#domain/condition/survey-input.ts";
import { TERMS, termsFor } from "#domain/condition/terms.ts";
import type { Refusal } from "#domain/outcome.ts";
import type { Print } from "#domain/print/print.ts";
import { findProcess } from "#domain/print/process.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { photographsOfPrint } from "#drizzle/queries/finding-photographs.ts";
import { judgementsOfPrint } from "#drizzle/queries/findings.ts";
import { lastLookedAtBy, lastSurvey } from "#drizzle/queries/surveys.ts";
import { SurveyFormPage } from "#views/pages/survey-form.tsx";
import type { Typed } from "#views/parts/field.tsx";
import { recordSurvey, standingFindings } from "../actions/record-survey.ts";
import { circumstancesOfPrint } from "../circumstances-of-print.ts";
import type { Context } from "../context.ts";
import { readForm, refusalsOf } from "./form.ts";
import { keptPrintIn } from "./kept-print.ts";
import { shownSidePictures } from "./shown-side-pictures.ts";
import { sentRows, typedAgain } from "./survey-rows.ts";

const FIRST_ROWS = 3;
const MOST_ROWS = 60;

export function surveyRoutes(context: Context): Hono {
  const keptPrint = (c: Request) => keptPrintIn(context, c);

  type Shown = { typed: Typed; refusals: readonly Refusal[]; rowCount: number; proposed: ProposedGrade | null };

  const show = (c: Request, print: Print, status: 200 | 422, shown: Shown) => {
    const standing = standingFindings(context.db, print.id);
    const today = context.now().slice(0, 10);
    const showsEveryTerm = c.req.query("terms") === "all";
    return c.html(
      SurveyFormPage({
        collectionName: readCollection(context.db).name,
        print,
        processName: findProcess(print.processId)?.name ?? print.processId,
        cautions: cautionsFor(circumstancesOfPrint(context.db, print, today, standing)),
        standing,
        lastSurvey: lastSurvey(context.db, print.id),
        terms: showsEveryTerm ? TERMS : termsFor(print.processId),
        showsEveryTerm,
        rowCount: shown.rowCount,
        pictures: shownSidePictures(context, print),
        photographs: photographsOfStanding(context, print.id),
        form: { typed: typedAgain(shown.typed, standing), refusals: shown.refusals },
        isAnswer: c.req.method === "POST",
        proposed: shown.proposed,
      }),
      status,
    );
  };

  return new Hono()
    .get("/prints/:id{[0-9]+}/survey", (c) => {
      const print = keptPrint(c);
      const typed = { surveyedOn: context.now().slice(0, 10), lookedAtBy: lastLookedAtBy(context.db) ?? "" };
      // asked for where a draft has more than the first rows
      const rowCount = Math.min(MOST_ROWS, Math.max(FIRST_ROWS, Math.floor(Number(c.req.query("rows"))) || 0));
      return print ? show(c, print, 200, { typed, refusals: [], rowCount, proposed: null }) : c.notFound();
    })

    .post("/prints/:id{[0-9]+}/survey", async (c) => {
      const print = keptPrint(c);
      if (!print) return c.notFound();
      const typed = await readForm(c);
      const found = sentRows(typed, "found");
      const sent = { ...typed, rejudged: sentRows(typed, "rejudged"), found };
      const read = surveyInput.safeParse(sent);
      const rowCount = Math.max(found.length, FIRST_ROWS);
      if (typed.step === "more" || typed.step === "terms") {
        const proposed = read.success ? proposedFrom(read.data, standingFindings(context.db, print.id)) : null;
        const more = typed.step === "more" ? found.length + FIRST_ROWS : rowCount;
        return show(c, print, 200, { typed, refusals: [], rowCount: more, proposed });
      }
      if (!read.success) return show(c, print, 422, { typed, refusals: refusalsOf(read.error), rowCount, proposed: null });
      const made = recordSurvey(context, { printId: print.id, input: read.data });
      if (!made.ok) return show(c, print, 422, { typed, refusals: made.refusals, rowCount, proposed: null });
      return c.redirect(`/prints/${print.id}?done=survey-recorded#survey-title`, 303);
    });
}

/** Photographs from every look at a thing found, by its last judgement. */
function photographsOfStanding({ db }: Context, printId: number): Map<number, FindingPhotograph[]> {
  const photographs = photographsOfPrint(db, printId);
  const lives = livesOf(judgementsOfPrint(db, printId));
  return new Map(lives.map((life) => [lastOf(life).id, life.flatMap(({ id }) => photographs.get(id) ?? [])]));
}

const proposedFrom = (input: Parameters<typeof judgements>[0], standing: readonly DatedFinding[]): ProposedGrade =>
  proposedGrade(judgements(input, standing));
