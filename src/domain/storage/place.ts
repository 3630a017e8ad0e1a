export const PLACE_KINDS = ["building", "room", "cabinet", "shelf", "drawer", "box", "album", "folder", "sleeve"] as const;
export type PlaceKind = (typeof PLACE_KINDS)[number];

/** Where prints are kept. Places stand inside one another; those without a parent are at the top. */
export type Place = {
  readonly id: number;
  readonly parentId: number | null;
  readonly kind: PlaceKind;
  readonly name: string;
  /** ids of enclosure.ts: what the prints in it lie in, and what that is made of */
  readonly enclosureKind: string | null;
  readonly enclosureMaterial: string | null;
  readonly note: string | null;
  readonly revision: number;
  readonly createdAt: string;
};

/** A place with the number of prints kept directly in it, the bin not counted. */
export type PlaceListed = Place & { readonly printCount: number };
