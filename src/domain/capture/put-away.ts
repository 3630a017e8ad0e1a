import { z } from "zod";
import type { Refusal } from "../outcome.ts";
import { reasonGiven } from "../print/typed-text.ts";

/** What a keeper says when putting a capture away, by form or command line. */
export const putAwayInput = z.object({ reason: reasonGiven(2000) });

/** Nothing is done to a capture that was put away but taking it back. */
export const IS_PUT_AWAY: Refusal = {
  about: null,
  happened: "This capture was put away.",
  remedy: "Take it back first, on its own page or from the bin.",
};
