import type { Place, PlaceListed } from "./place.ts";

export type PlaceNode = PlaceListed & {
  /** names from the outermost place to this one */
  readonly path: readonly string[];
  /** 0 at the top */
  readonly depth: number;
  /** prints in it and in every place inside it */
  readonly printCountInside: number;
  readonly children: readonly PlaceNode[];
};

/** Study › Cabinet 2 › Box 4 */
export const pathInWords = (path: readonly string[]): string => path.join(" › ");

/** The places at the top with those inside them; brothers by name, numbers in names counted ("Box 9" before "Box 10"). */
export function placeTree(places: readonly PlaceListed[]): PlaceNode[] {
  const inside = new Map<number | null, PlaceListed[]>();
  for (const place of places) inside.set(place.parentId, [...(inside.get(place.parentId) ?? []), place]);
  const grow = (parentId: number | null, path: readonly string[]): PlaceNode[] =>
    (inside.get(parentId) ?? []).toSorted(byName).map((place) => {
      const ownPath = [...path, place.name];
      const children = grow(place.id, ownPath);
      const printCountInside = children.reduce((sum, child) => sum + child.printCountInside, place.printCount);
      return { ...place, path: ownPath, depth: path.length, printCountInside, children };
    });
  return grow(null, []);
}

/** The tree read from top to bottom, as a list of choices shows it. */
export const flatten = (tree: readonly PlaceNode[]): PlaceNode[] => tree.flatMap((node) => [node, ...flatten(node.children)]);

const byName = (a: Place, b: Place): number => a.name.localeCompare(b.name, "en", { numeric: true });
