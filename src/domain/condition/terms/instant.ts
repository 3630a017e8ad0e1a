import { INTEGRAL, PEEL_APART } from "../befalls.ts";
import { FIRST_AID, FROM_MEMORY, LEAK_BLOG, NISHIMURA_1993, PEEL_APART_ANSWER, PIGNIOLO } from "../sources.ts";
import type { Term } from "../term.ts";

/** What only instant prints suffer. */
export const INSTANT_TERMS: readonly Term[] = [
  {
    id: "reagent-leak",
    name: "Reagent leak",
    alsoCalled: ["pod leak", "leaking paste"],
    group: "instant",
    definition: "Alkaline processing paste has escaped from pod or seal onto the print, album or hands.",
    levels: ["Dry crust at one edge", "Paste on border", "Paste on image or other prints", "Fresh wet paste"],
    befalls: [...INTEGRAL, ...PEEL_APART],
    sources: [LEAK_BLOG, PEEL_APART_ANSWER, FIRST_AID],
  },
  {
    id: "reagent-crystals",
    name: "Reagent crystals",
    alsoCalled: ["efflorescence", "salts"],
    group: "instant",
    definition: "White or clear crystals under or at the edge of the cover where reagent dried out.",
    levels: ["A few at pod edge", "Visible in image", "Patches over subject", "Whole image"],
    befalls: INTEGRAL,
    sources: [FROM_MEMORY],
  },
  {
    id: "neg-residue",
    name: "Negative or mask residue",
    alsoCalled: ["paper mask stuck", "brown residue"],
    group: "instant",
    definition: "Rests of the negative sheet, its paper mask or dried reagent left on the print edge.",
    levels: ["One edge", "Two edges", "On image", "Stuck to neighbours"],
    befalls: PEEL_APART,
    sources: [PEEL_APART_ANSWER, NISHIMURA_1993],
  },
  {
    id: "dark-stain-instant",
    name: "Yellow stain of integral print in the dark",
    alsoCalled: ["dark yellowing"],
    group: "instant",
    definition: "Yellowish stain that grows in the pale parts of an integral print stored in the dark.",
    levels: ["White border slightly cream", "Pale areas plainly yellow", "Yellow over the whole picture", "Deep yellow-brown"],
    befalls: [...INTEGRAL, ...PEEL_APART],
    sources: [PIGNIOLO],
  },
  {
    id: "cracking-integral",
    name: "Cracking inside an integral print",
    alsoCalled: ["internal cracks"],
    group: "instant",
    definition: "Fine cracks in the inner image layer under an unbroken clear cover, more in dry storage.",
    levels: ["A few hairlines under magnification", "Visible to the eye in part", "Over most of image", "Layer lifting under the cover"],
    befalls: INTEGRAL,
    sources: [PIGNIOLO],
  },
  {
    id: "delam-instant",
    name: "Delamination of an integral print",
    alsoCalled: ["layers parting", "separation"],
    group: "instant",
    definition: "The clear cover, image layer or back has come apart.",
    levels: ["One corner", "One side", "Over image", "Loose halves"],
    befalls: INTEGRAL,
    sources: [FROM_MEMORY],
  },
];
