import type { Aim, PurposeKey } from "./aim.ts";
import { PRESERVATION_MASTER_EDITION, PRESERVATION_MASTER_LIMITS } from "./preservation-master.ts";
import { REPRODUCTION_EDITION, REPRODUCTION_LIMITS } from "./reproduction.ts";
import { SCREEN_EDITION, SCREEN_LIMITS } from "./screen.ts";

/** A purpose with the aim that a new collection starts with. Versions are counted by the collection that keeps them. */
export type PublishedAim = Omit<Aim, "id" | "purpose" | "version"> & {
  readonly purpose: { readonly key: PurposeKey; readonly name: string; readonly note: string };
};

/**
 * Ready-made aims from published figures, in the order of the purposes. A published star or level
 * rates a capturing system on a target: an aim borrows the figures, and no capture of a print
 * earns the star. Figures that nobody has published for a print alone are called own.
 */
export const PUBLISHED_AIMS: readonly PublishedAim[] = [
  {
    purpose: { key: "preservation-master", name: "Preservation master", note: "Stands for the print when the print is gone." },
    name: "Lossless, whole and fine enough to keep",
    edition: PRESERVATION_MASTER_EDITION,
    limits: PRESERVATION_MASTER_LIMITS,
  },
  {
    purpose: { key: "reproduction", name: "Reproduction", note: "Shown at its own size, in a book or on a wall." },
    name: "Clean and fine enough to print at its own size",
    edition: REPRODUCTION_EDITION,
    limits: REPRODUCTION_LIMITS,
  },
  {
    purpose: { key: "screen", name: "Screen", note: "Looked at on a screen." },
    name: "Pleasant to look at",
    edition: SCREEN_EDITION,
    limits: SCREEN_LIMITS,
  },
];
