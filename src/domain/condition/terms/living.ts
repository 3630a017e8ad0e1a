import { ALL } from "../befalls.ts";
import { AICCM, CDC, MCI } from "../sources.ts";
import type { Term } from "../term.ts";

/** What living things do. */
export const LIVING_TERMS: readonly Term[] = [
  {
    id: "mould",
    name: "Mould",
    alsoCalled: ["fungus", "mildew"],
    group: "living",
    definition: "Fluffy, velvety or powdery growth, or its stains, from high RH.",
    levels: ["Old dry stain", "Dry dusty growth", "Growth on image", "Wet or spreading growth"],
    befalls: ALL,
    sources: [MCI, AICCM, CDC],
  },
  {
    id: "insect",
    name: "Insect grazing",
    alsoCalled: ["silverfish damage", "wormhole"],
    group: "living",
    definition: "Surface eaten in wandering channels, or holes through.",
    levels: ["Edge", "Border", "Image", "Large loss"],
    befalls: ALL,
    sources: [AICCM, MCI],
  },
  {
    id: "flyspeck",
    name: "Fly specks",
    alsoCalled: ["insect spots"],
    group: "living",
    definition: "Small dark glossy acid spots.",
    levels: ["Under 5 specks", "5-20 specks", "Over 20 specks", "Over subject"],
    befalls: ALL,
    sources: [MCI],
  },
  {
    id: "rodent",
    name: "Rodent damage",
    alsoCalled: ["gnawed edge"],
    group: "living",
    definition: "Edges with tooth marks, or urine stain.",
    levels: ["Edge gnawed", "Under 5 % of the sheet gone", "5-20 % of the sheet gone", "Over 20 % of the sheet gone"],
    befalls: ALL,
    sources: [MCI],
  },
];
