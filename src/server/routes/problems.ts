import type { Context as Request } from "hono";
import { HTTPException } from "hono/http-exception";
import { readCollection } from "#drizzle/queries/collection.ts";
import { type Problem, ProblemPage } from "#views/pages/problem.tsx";
import type { Context } from "../context.ts";

const NOT_FOUND: Problem = {
  status: 404,
  title: "Not here",
  happened: "There is nothing at this address. It may have been mistyped, or what it showed may lie in the bin.",
  remedy: "Look for it among the prints, or in the bin.",
};

const PROBLEMS: Readonly<Record<number, Problem>> = {
  400: {
    status: 400,
    title: "Not whole",
    happened: "What was sent is no whole form; the connection may have broken. Nothing was changed.",
    remedy: "Go back in the browser: what was typed is still there. Send it once more.",
  },
  403: {
    status: 403,
    title: "From another site",
    happened: "This was asked for from another site, or the browser did not say where it came from. Nothing was changed.",
    remedy: "Open the page in this collection, and ask for it from there.",
  },
  413: {
    status: 413,
    title: "Too much at once",
    happened: "The form was larger than one megabyte, so it was not read. Nothing was changed.",
    remedy: "Go back in the browser: what was typed is still there. Shorten the longest field, and save again.",
  },
  421: {
    status: 421,
    title: "Wrong name",
    happened: "This collection was called by a name that it does not answer to.",
    remedy: "Open it at http://localhost, with the port that the program printed when it started.",
  },
};

const DEFECT: Problem = {
  status: 500,
  title: "Something went wrong",
  happened: "The program met a fault of its own. What was not yet saved is not saved; what was saved before is safe.",
  remedy: "Go back and try again. If it happens again, the terminal where the program runs shows what to report.",
};

export const answerNotFound = (context: Context, c: Request) => show(context, c, NOT_FOUND);

/** The page for what went wrong. Expected refusals say what to do; a defect goes to the terminal and shows nothing of its inside. */
export function answerProblem(context: Context, error: Error, c: Request) {
  const problem = error instanceof HTTPException ? (error.status === 404 ? NOT_FOUND : PROBLEMS[error.status]) : undefined;
  if (!problem) console.error(error);
  return show(context, c, problem ?? DEFECT);
}

function show(context: Context, c: Request, problem: Problem) {
  return c.html(ProblemPage({ problem, collectionName: collectionName(context) }), problem.status);
}

/** The page must come even when the database is what broke. */
function collectionName(context: Context): string {
  try {
    return readCollection(context.db).name;
  } catch {
    return "Solander";
  }
}
