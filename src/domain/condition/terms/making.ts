import { INTEGRAL, PEEL_APART, PLATES } from "../befalls.ts";
import { COLD_ARTICLE, COMMON_PRACTICE, INSTANT_BLOG, PEEL_APART_ANSWER, SERVICE_MANUALS } from "../sources.ts";
import type { Term } from "../term.ts";

/** Faults of making: they are part of the object and call for no treatment. */
export const MAKING_TERMS: readonly Term[] = [
  {
    id: "undeveloped",
    name: "Undeveloped area",
    alsoCalled: ["blank patch", "short spread"],
    group: "making",
    definition: "Part of the picture never developed because the reagent did not reach it.",
    levels: ["A corner", "Under a tenth", "A tenth to a third", "Over a third"],
    befalls: [...INTEGRAL, ...PEEL_APART],
    sources: [INSTANT_BLOG, COLD_ARTICLE],
  },
  {
    id: "blotchy",
    name: "Blotchy or uneven development",
    alsoCalled: ["mottle", "streaks", "bands"],
    group: "making",
    definition: "Bands, clouds or patches of wrong density or colour from uneven spread, old pods or cold.",
    levels: ["Faint", "Visible", "Over subject", "Subject unreadable"],
    befalls: [...INTEGRAL, ...PEEL_APART],
    sources: [INSTANT_BLOG, COLD_ARTICLE],
  },
  {
    id: "roller-mark",
    name: "Roller marks",
    alsoCalled: ["repeating dots"],
    group: "making",
    definition: "Spots or lines repeating at equal distances, from dirt on the camera rollers.",
    levels: ["1-2", "3-6", "Over 6", "Over subject"],
    befalls: [...INTEGRAL, ...PEEL_APART],
    sources: [COMMON_PRACTICE],
  },
  {
    id: "uncoated",
    name: "Uncoated or badly coated peel-apart print",
    alsoCalled: ["missing coating", "coating streaks"],
    group: "making",
    definition: "Early monochrome peel-apart print without its protective coat, or coated in streaks.",
    levels: ["Thin streaks", "Missed strip", "Half missed", "No coat, image fading"],
    befalls: ["peel-apart-instant-monochrome"],
    sources: [PEEL_APART_ANSWER],
  },
  {
    id: "light-leak",
    name: "Light leak or fogging",
    alsoCalled: ["fog", "flare"],
    group: "making",
    definition: "Exposure from stray light, often as streaks from one edge.",
    levels: ["Edge only", "Into image", "Over subject", "Most of image"],
    befalls: [...INTEGRAL, ...PEEL_APART, ...PLATES],
    sources: [SERVICE_MANUALS],
  },
];
