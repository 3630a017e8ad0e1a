import { PROCESSES, type ProcessFamily } from "../print/process.ts";

/** Which processes a term can befall, by the ids of processes. The grouping follows what the prints are made of, and is our own. */
const ofFamilies = (...families: readonly ProcessFamily[]): readonly string[] =>
  PROCESSES.filter((process) => families.includes(process.family)).map((process) => process.id);

export const ALL: readonly string[] = PROCESSES.map((process) => process.id);
export const INTEGRAL = ofFamilies("integral-instant");
export const PEEL_APART = ofFamilies("peel-apart-instant");
export const SILVER = ofFamilies("silver");
export const DIGITAL = ofFamilies("digital");
export const EARLY_PAPER = ofFamilies("early-paper");
export const PLATES = ofFamilies("plate");
/** Early papers with a silver image, which needs fixing and washing. */
export const SILVER_EARLY: readonly string[] = ["salted-paper", "albumen", "collodion-printing-out"];
export const GELATIN: readonly string[] = [...SILVER, "chromogenic", "dye-destruction", "dye-transfer"];
export const COLOUR: readonly string[] = [
  "integral-instant-colour",
  "peel-apart-instant-colour",
  "chromogenic",
  "dye-destruction",
  "dye-transfer",
  ...DIGITAL,
  "direct-thermal",
];
/** Sheets of paper, coated or not. */
export const PAPER: readonly string[] = [...GELATIN, ...PEEL_APART, ...DIGITAL, ...EARLY_PAPER];
/** The image lies in a layer that can part from its support; in the other early papers it lies in the fibres. */
export const WITH_LAYER: readonly string[] = [
  ...GELATIN,
  ...INTEGRAL,
  ...PEEL_APART,
  ...DIGITAL,
  "albumen",
  "collodion-printing-out",
  "ambrotype",
  "tintype",
];
/** Films and gelatin plates are no process of a print: such a term is offered where the process is not known. */
export const FILM_ONLY: readonly string[] = [];
