import { Hono } from "hono";
import { countCloseChoices, listCloseChoices } from "#drizzle/queries/choices.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { countOpenProposals, listOpenProposals } from "#drizzle/queries/proposals.ts";
import { ChoicesPage } from "#views/pages/choices.tsx";
import { answerProposal } from "../actions/answer-proposal.ts";
import type { Context } from "../context.ts";
import { idIn, readForm } from "./form.ts";

const MOST_SHOWN = 50;

/** Choices that wait for a person to look. */
export const choiceRoutes = (context: Context): Hono =>
  new Hono()
    .get("/choices", (c) =>
      c.html(
        ChoicesPage({
          collectionName: readCollection(context.db).name,
          proposals: listOpenProposals(context.db, { most: MOST_SHOWN }),
          close: listCloseChoices(context.db, MOST_SHOWN),
          counts: { proposals: countOpenProposals(context.db), close: countCloseChoices(context.db) },
          done: c.req.query("done"),
        }),
      ),
    )

    .post("/prints/:id{[0-9]+}/proposals/:proposal{[0-9]+}", async (c) => {
      const printId = idIn(c);
      const { answer, from } = await readForm(c);
      if (printId === null || (answer !== "accepted" && answer !== "declined")) return c.notFound();
      const answered = answerProposal(context, { printId, proposalId: Number(c.req.param("proposal")), answer });
      const done = answered.ok ? `proposal-${answer}` : "proposal-gone";
      return c.redirect(from === "choices" ? `/choices?done=${done}` : `/prints/${printId}?done=${done}`, 303);
    });
