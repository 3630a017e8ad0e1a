import { z } from "zod";

const match = z.strictObject({
  file: z.string(),
  verdict: z.enum(["same", "perhaps"]).meta({ description: "perhaps: a person must look" }),
  likeness: z.number().min(-1).max(1).meta({ description: "how alike the pictures look from afar" }),
  detail: z.number().min(-1).max(1).meta({ description: "how well their detail agrees once laid on each other" }),
  quarterTurns: z.int().min(0).max(3).meta({ description: "clockwise, that bring it to lie as the file asked for" }),
});

/** Which files show the same print as one: the answer of the command line for programs. */
export const matchReportSchema = z
  .strictObject({
    file: z.string(),
    sha256: z.string().regex(/^[0-9a-f]{64}$/),
    sameBytes: z.array(z.string()).meta({ description: "files that hold the very same bytes; they are not compared" }),
    matches: z.array(match).meta({ description: "likeliest first; empty: no match" }),
  })
  .meta({ title: "Match report", description: "Captures that show the same print as a file does." });

export type MatchReport = z.infer<typeof matchReportSchema>;
