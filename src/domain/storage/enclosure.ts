/** What prints lie in, inside a place. */
export type EnclosureKind = { readonly id: string; readonly name: string; readonly note: string; readonly source: string };

/** What an enclosure is made of, with what to mind where a source says it. */
export type EnclosureMaterial = { readonly id: string; readonly name: string; readonly note: string; readonly source: string };

const LEAFLET = "Northeast Document Conservation Center, Preservation Leaflet 5.5, Storage Enclosures for Photographic Materials";
const COURSE = "Northeast Document Conservation Center, Preservation 101 course, photograph storage";
const UNIVERSITY = "University of Illinois Library, preservation guidance by type of photograph";
const MEMORY = "common practice, no source";

/** In the order from loose to closed. The names are the trade's. */
export const ENCLOSURE_KINDS: readonly EnclosureKind[] = [
  { id: "none", name: "None: prints lie loose", note: "One print, one enclosure is the aim.", source: COURSE },
  { id: "interleaf", name: "Interleaving sheets", note: "", source: MEMORY },
  { id: "sleeve", name: "Sleeve", note: "Open on one side or more.", source: MEMORY },
  { id: "envelope", name: "Envelope", note: "Seams at the side, the image turned away from the seam.", source: COURSE },
  {
    id: "four-flap",
    name: "Four-flap folder",
    note: "Opens flat, so that nothing slides over the image; asked for tintypes.",
    source: UNIVERSITY,
  },
  { id: "folder", name: "Folder", note: "", source: MEMORY },
  { id: "mat", name: "Window mat", note: "", source: MEMORY },
  { id: "album-page", name: "Album page", note: "", source: MEMORY },
  { id: "case-wrap", name: "Tissue round a cased print", note: "Cased prints stay whole, in tissue and box.", source: UNIVERSITY },
];

export const ENCLOSURE_MATERIALS: readonly EnclosureMaterial[] = [
  {
    id: "paper-neutral",
    name: "Paper, lignin-free, not buffered",
    note: "pH 6.5 to 7.5. Asked for colour prints, cyanotype and albumen by one leaflet; a course of the same centre finds no support for it.",
    source: `${LEAFLET}; ${COURSE}`,
  },
  { id: "paper-buffered", name: "Paper, lignin-free, buffered", note: "pH 7.5 to 9.5.", source: LEAFLET },
  {
    id: "paper-unknown",
    name: "Paper or card of unknown make",
    note: "Paper must be lignin-free; replace it when in doubt.",
    source: LEAFLET,
  },
  { id: "polyester", name: "Polyester, uncoated", note: "Can trap moisture: not in a damp store, not on a flaking layer.", source: COURSE },
  { id: "polyethylene", name: "Polyethylene", note: "Can trap moisture: not in a damp store, not on a flaking layer.", source: COURSE },
  { id: "polypropylene", name: "Polypropylene", note: "Can trap moisture: not in a damp store, not on a flaking layer.", source: COURSE },
  {
    id: "pvc",
    name: "PVC (vinyl)",
    note: "Not for photographs: take the prints out.",
    source: `${UNIVERSITY}; Australian Institute for the Conservation of Cultural Material, Visual Glossary`,
  },
  { id: "plastic-unknown", name: "Plastic of unknown kind", note: "It may be PVC; replace it when in doubt.", source: UNIVERSITY },
];

export const findEnclosureKind = (id: string): EnclosureKind | null => ENCLOSURE_KINDS.find((kind) => kind.id === id) ?? null;

export const findEnclosureMaterial = (id: string): EnclosureMaterial | null =>
  ENCLOSURE_MATERIALS.find((material) => material.id === id) ?? null;
