import { flatten, type PlaceNode } from "../place-tree.ts";

/**
 * The place whose readings tell of each place: itself, else the nearest one that it stands in. A place that neither measures nor
 * stands in one that does is left out.
 */
export function whoseClimate(tree: readonly PlaceNode[], measured: ReadonlySet<number>): Map<number, number> {
  const tells = new Map<number, number>();
  for (const node of flatten(tree)) {
    const from = measured.has(node.id) ? node.id : node.parentId === null ? undefined : tells.get(node.parentId);
    if (from !== undefined) tells.set(node.id, from);
  }
  return tells;
}
