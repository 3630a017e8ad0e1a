import { findProcess, type ProcessFamily } from "../../print/process.ts";

/** A climate that a source allows; a bound that it does not give is null. Bounds belong to it. */
export type AllowedClimate = {
  readonly leastC: number | null;
  readonly mostC: number | null;
  readonly leastPercent: number | null;
  readonly mostPercent: number | null;
};

/** A published limit: good is what one of its climates allows. */
export type ClimateLimit = {
  readonly id: string;
  readonly name: string;
  readonly allowed: readonly AllowedClimate[];
  readonly source: string;
  /** what is unsure about the figures; null where they were read for just this material */
  readonly doubt: string | null;
};

const LOC = "Library of Congress, Care, Handling and Storage of Photographs";
const ISO_THROUGH_NEWSLETTER = "ISO 18920:2011, as told by the Image Permanence Institute's newsletter 11 on digital prints";
const ISO_FROM_MEMORY = "ISO 18920";

const climate = (leastC: number | null, mostC: number | null, leastPercent: number | null, mostPercent: number | null): AllowedClimate => ({
  leastC,
  mostC,
  leastPercent,
  mostPercent,
});

const GENERAL: ClimateLimit = {
  id: "photographs-in-general",
  name: "Photographs in general",
  allowed: [climate(null, 20, 30, 40)],
  source: LOC,
  doubt: "The source says “room temperature or below”: 20 °C is how that is read here.",
};

const NO_VALUE_OF_ITS_OWN: ClimateLimit = {
  ...GENERAL,
  doubt: "No figure for just this process was read: the one for photographs in general is used.",
};

const DIGITAL_COLD = [climate(null, 2, 30, 50), climate(null, 5, 30, 40)];

const SILVER: ClimateLimit = {
  id: "gelatin-silver",
  name: "Gelatin silver print",
  allowed: [climate(null, 18, 30, 50)],
  source: ISO_FROM_MEMORY,
  doubt: "The figure is from memory.",
};

const COLOUR: ClimateLimit = {
  id: "contemporary-colour",
  name: "Contemporary colour print",
  allowed: [climate(null, 4, 30, 40)],
  source: LOC,
  doubt: "The source gives the temperature for colour; the humidity is that for photographs in general.",
};

const PLATE: ClimateLimit = {
  id: "collodion-plate",
  name: "Collodion on metal or glass",
  allowed: [climate(5, 20, 30, 40)],
  source: `J. Hinwood, Conservation DistList 15:69, 2002, for the least temperature; ${LOC} for the rest`,
  doubt: "Other authors call the fear of cold unfounded for gelatin plates; ask a conservator before any cold store.",
};

const BY_PROCESS: Readonly<Record<string, ClimateLimit>> = {
  albumen: {
    id: "albumen",
    name: "Albumen print",
    allowed: [climate(null, 18, 30, 40)],
    source: "J. M. Reilly, summary of the albumen print research, Picturescope 30(1), 1982",
    doubt: "Read through an abstract.",
  },
  inkjet: { id: "inkjet", name: "Inkjet print", allowed: DIGITAL_COLD, source: ISO_THROUGH_NEWSLETTER, doubt: null },
  "dye-sublimation": {
    id: "dye-sublimation",
    name: "Dye-sublimation print",
    allowed: DIGITAL_COLD,
    source: ISO_THROUGH_NEWSLETTER,
    doubt: null,
  },
  daguerreotype: NO_VALUE_OF_ITS_OWN,
};

const BY_FAMILY: Readonly<Record<ProcessFamily, ClimateLimit>> = {
  "not-known": {
    ...GENERAL,
    doubt: "The process is not known: the figure for photographs in general is used, and it may need a cooler place.",
  },
  "integral-instant": NO_VALUE_OF_ITS_OWN,
  "peel-apart-instant": NO_VALUE_OF_ITS_OWN,
  silver: SILVER,
  chromogenic: COLOUR,
  dye: COLOUR,
  digital: NO_VALUE_OF_ITS_OWN,
  "direct-thermal": NO_VALUE_OF_ITS_OWN,
  "early-paper": NO_VALUE_OF_ITS_OWN,
  plate: PLATE,
};

/** The published limit that prints of a process are held against. */
export function climateLimitOf(processId: string): ClimateLimit {
  return BY_PROCESS[processId] ?? BY_FAMILY[findProcess(processId)?.family ?? "not-known"];
}

/** “at most 18 °C at 30 to 50 %, or …” */
export const limitInWords = (limit: ClimateLimit): string => limit.allowed.map(climateInWords).join(", or ");

function climateInWords({ leastC, mostC, leastPercent, mostPercent }: AllowedClimate): string {
  const temperature = leastC === null ? `at most ${mostC} °C` : mostC === null ? `at least ${leastC} °C` : `${leastC} to ${mostC} °C`;
  return leastPercent === null || mostPercent === null ? temperature : `${temperature} at ${leastPercent} to ${mostPercent} %`;
}
