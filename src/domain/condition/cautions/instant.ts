import { type CautionRule, CONTACT, DEFER } from "../caution.ts";

const INTEGRAL = { families: ["integral-instant"], defer: DEFER } as const;
const PEEL_APART = { families: ["peel-apart-instant"], defer: DEFER } as const;
const ANY_INSTANT = { families: ["integral-instant", "peel-apart-instant"], defer: DEFER } as const;

/** What instant prints ask for because of how they are made. */
export const INSTANT_CAUTIONS: readonly CautionRule[] = [
  {
    ...INTEGRAL,
    id: "picture-still-forming",
    level: "caution",
    title: "The picture is still being made",
    text: "For the first hour shield it from light and do not shake, bend, press, heat or capture it. Let it develop between 13 and 28 °C: cold leaves a blue or green cast.",
    cause: "The print is integral and was processed today.",
    source: "a maker's cold-weather article (temperatures); light and shaking from memory",
    upToDays: 0,
    forbids: CONTACT,
  },
  {
    ...INTEGRAL,
    id: "fresh-integral",
    level: "warning",
    title: "Fresh integral print: still wet inside",
    text: "For about 30 days the chemistry inside has not dried out. Keep the print face up in a cool airy place, without weight, sun or heat; no plastic sleeve yet; no glass on it, no other print on it.",
    cause: "The print is integral and was processed no more than 30 days ago.",
    source: "a maker's storage article for integral instant film; D. Nishimura, Conservation DistList, 1993, says a couple of weeks",
    upToDays: 30,
    unlessRuledOut: true,
    forbids: CONTACT,
  },
  {
    ...INTEGRAL,
    id: "integral-do-not-open",
    level: "warning",
    title: "Do not cut, peel or open",
    text: "An integral print is a sealed sheet. Trimming, punching, stapling or pulling its layers apart lets reagent out and air and water in.",
    cause: "The process is integral instant.",
    source: "D. Nishimura, Conservation DistList, 1993; a maker's description of one sheet; the advice from memory",
    forbids: [],
  },
  {
    ...INTEGRAL,
    id: "no-heat-instant",
    level: "warning",
    title: "No heat, no microwave",
    text: "Heat softens the layers, drives dyes and lifts the cover. No hot lamps, no iron, dryer or oven, never a microwave: the print holds moisture and may hold metal. Do not leave it on a running scanner, monitor or light box.",
    cause: "The process is integral instant.",
    source:
      "Iowa State University Library; Library of Congress, Care, Handling and Storage of Photographs; metal and microwave from memory",
    forbids: [],
  },
  {
    ...INTEGRAL,
    id: "no-liquid-cleaner",
    level: "warning",
    title: "No cleaner on the front",
    text: "No glass cleaner, water or solvent: cleaner was seen to creep under the border and move the dyes. Clean the glass of the equipment instead, and let it dry fully before anything is laid down.",
    cause: "The process is integral instant.",
    source: "D. Nishimura, Conservation DistList, 1993",
    forbids: [],
  },
  {
    ...INTEGRAL,
    id: "do-not-freeze",
    level: "warning",
    title: "Do not freeze it on your own decision",
    text: "No text that rules for or against freezing an integral print was found, and a fresh one keeps free water for weeks. Until a conservator decides: cool but above freezing, dark, steady.",
    cause: "The process is integral instant.",
    source:
      "a maker's storage article (unexposed packs at 4 to 18 °C); D. Nishimura, Conservation DistList, 1993; ISO 18920:2011 as told by the Image Permanence Institute; the conclusion is this program's own proposal",
    forbids: [],
  },
  {
    ...INTEGRAL,
    id: "keep-apart",
    level: "caution",
    title: "Keep apart from other prints",
    text: "Do not stack it or let it share a sleeve or a scanner's bed with other photographs. Whether its vapour harms neighbours is disputed; its raised border scratches them.",
    cause: "The process is integral instant.",
    source: "D. Nishimura, 10 October 1993, and L. C. Pigniolo, 1 October 1993, Conservation DistList",
    forbids: [],
  },
  {
    ...PEEL_APART,
    id: "fresh-peel-apart",
    level: "warning",
    title: "Fresh peel-apart print: alkaline residue",
    text: "The negative and its edge carry alkaline reagent and can still be damp: wear gloves and keep it from touching prints. Never peel an old pair that was left together; show it to a conservator.",
    cause: "The print is of the peel-apart kind and was processed no more than a week ago.",
    source: "a photography question-and-answer thread on clearing negatives; D. Nishimura, Conservation DistList, 1993",
    upToDays: 7,
    unlessRuledOut: true,
    forbids: CONTACT,
  },
  {
    ...ANY_INSTANT,
    id: "steady-climate",
    level: "caution",
    title: "Neither very dry nor damp",
    text: "Dry air makes it crack, curl and turn brittle; damp air brings mould and faster decay. Keep it steady, usually between 30 and 50 % relative humidity.",
    cause: "The print is an instant print.",
    source:
      "D. W. Nishimura, storage leaflet, 1992; L. C. Pigniolo, 1993; the band is general, from the Library of Congress, not for instant prints alone",
    forbids: [],
  },
  {
    ...ANY_INSTANT,
    id: "show-a-copy",
    level: "caution",
    title: "Show a copy",
    text: "Instant colour prints fade in light faster than ordinary colour prints. If the original must hang: a filter against ultraviolet, 50 lux, a short time, then rest.",
    cause: "The process is instant colour.",
    source:
      "L. C. Pigniolo, Conservation DistList, 1993; S. Wagner and others, Topics in Photographic Preservation 9, 2001; National Museum of Asian Art, light guidelines",
    processIds: ["integral-instant-colour", "peel-apart-instant-colour"],
    forbids: [],
  },
];
