import { z } from "zod";
import type { Refusal } from "./outcome.ts";

/** What a program is answered for a file that was refused, in the place of its report. */
export const refusedFileSchema = z
  .strictObject({
    file: z.string().meta({ description: "as it was named, or found in the folder named" }),
    refusal: z.string().min(1).meta({ description: "what happened, and what to do" }),
  })
  .meta({ description: "a file or folder that could not be read" });

export type RefusedFile = z.infer<typeof refusedFileSchema>;

export const refusedFile = (file: string, { happened, remedy }: Refusal): RefusedFile => ({ file, refusal: `${happened} ${remedy}` });
