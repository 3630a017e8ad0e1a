import { z } from "zod";
import { patternProblem } from "../print/object-number.ts";

/** What a keeper says of the collection as a whole. */
export const collectionInput = z.object({
  name: z
    .string()
    .trim()
    .min(1, "Give the collection a name, such as Lindqvist family prints.")
    .max(120, "Keep the name of the collection under 120 letters.")
    .refine((name) => !/\p{Cc}/u.test(name), "Write the name on one line."),
  objectNumberPattern: z
    .string()
    .trim()
    .min(1, "Write a pattern, such as {year}.{item:3}.")
    .max(100, "Keep the pattern under 100 letters.")
    .superRefine((pattern, issues) => {
      const problem = patternProblem(pattern);
      if (problem !== null) issues.addIssue({ code: "custom", message: problem });
    }),
});
export type CollectionInput = z.output<typeof collectionInput>;
