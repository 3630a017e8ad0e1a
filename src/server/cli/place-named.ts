import { flatten, pathInWords, placeTree } from "#domain/storage/place-tree.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import type { Context } from "../context.ts";
import { Ending, EXIT } from "./exit-code.ts";

/** The place that was meant by its name or its path. Ends the command where none or several have it. */
export function placeNamed(context: Context, name: string): number {
  const places = flatten(placeTree(listPlaces(context.db)));
  const alike = (text: string) => text.localeCompare(name.trim(), "en", { sensitivity: "accent" }) === 0;
  const named = places.filter((place) => alike(place.name) || alike(pathInWords(place.path)));
  const [only, other] = named;
  if (only && !other) return only.id;
  const known = (other ? named : places).map(({ path }) => pathInWords(path)).join("; ");
  throw new Ending(EXIT.usage, `${other ? "Several places have" : "No place has"} that name. Write one of: ${known}.`);
}
