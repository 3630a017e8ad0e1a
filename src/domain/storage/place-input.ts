import { z } from "zod";
import { chosen, passage } from "../print/typed-text.ts";
import { findEnclosureKind, findEnclosureMaterial } from "./enclosure.ts";
import { PLACE_KINDS } from "./place.ts";

const isEnclosureKind = (id: string): id is string => findEnclosureKind(id) !== null;
const isEnclosureMaterial = (id: string): id is string => findEnclosureMaterial(id) !== null;

/** A place, as a form or the command line gives it. */
export const placeInput = z.object({
  kind: z.enum(PLACE_KINDS, "Choose what kind of place it is."),
  name: z
    .string()
    .trim()
    .min(1, "Give the place a name, such as Box 4.")
    .max(120, "Keep the name of a place under 120 letters.")
    .refine((name) => !/\p{Cc}/u.test(name), "Write the name on one line."),
  parentId: z
    .string()
    .trim()
    .default("")
    .refine((text) => text === "" || /^[1-9]\d{0,14}$/.test(text), "Choose a place from the list.")
    .transform((text) => (text === "" ? null : Number(text))),
  enclosureKind: chosen(isEnclosureKind, "Choose an enclosure from the list, or none."),
  enclosureMaterial: chosen(isEnclosureMaterial, "Choose a material from the list, or none."),
  note: passage(2000),
});
export type PlaceInput = z.output<typeof placeInput>;
