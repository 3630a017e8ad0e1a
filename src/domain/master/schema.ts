import { z } from "zod";
import { SIDES } from "../capture/capture.ts";
import { reasonGiven } from "../print/typed-text.ts";

const side = z.enum(SIDES, "Choose front or back.");
/** Whether the collection has it, the action knows. */
const purposeKey = z.string("Choose one of the purposes.").min(1, "Choose one of the purposes.").max(80, "Choose one of the purposes.");

/** A person's own choice of a master, as a form or the command line gives it. */
export const overruleInput = z.object({
  side,
  purposeKey,
  captureId: z.coerce.number("Choose a capture.").int("Choose a capture.").positive("Choose a capture."),
  reason: reasonGiven(2000),
});
export type OverruleInput = z.output<typeof overruleInput>;

/** Which choice goes back to the rule. */
export const releaseInput = z.object({ side, purposeKey });
export type ReleaseInput = z.output<typeof releaseInput>;
