import { z } from "zod";
import { PLACE_KINDS } from "./place.ts";

const placeName = z
  .string()
  .trim()
  .min(1, "Give the place a name, such as Box 4.")
  .max(120, "Keep the name of a place under 120 letters.")
  .refine((name) => !/\p{Cc}/u.test(name), "Write the name on one line.");

/** A new place, as a form or the command line gives it. */
export const placeInput = z.object({
  kind: z.enum(PLACE_KINDS, "Choose what kind of place it is."),
  name: placeName,
  parentId: z
    .string()
    .trim()
    .default("")
    .refine((text) => text === "" || /^[1-9]\d{0,14}$/.test(text), "Choose a place from the list.")
    .transform((text) => (text === "" ? null : Number(text))),
});
export type PlaceInput = z.output<typeof placeInput>;

/** Another name for a place. */
export const placeRenaming = z.object({ newName: placeName });
