import { z } from "zod";
import type { Refusal } from "../outcome.ts";

const WHY = "Say why, so that the next keeper understands.";

/** What a keeper says when putting a capture away, by form or command line. */
export const putAwayInput = z.object({
  reason: z.string(WHY).trim().min(1, WHY).max(2000, "Keep the reason under 2000 letters."),
});

/** Nothing is done to a capture that was put away but taking it back. */
export const IS_PUT_AWAY: Refusal = {
  about: null,
  happened: "This capture was put away.",
  remedy: "Take it back first, on its own page or from the bin.",
};
