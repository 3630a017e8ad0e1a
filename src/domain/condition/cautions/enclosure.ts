import { type CautionRule, DEFER } from "../caution.ts";

const SOURCE =
  "University of Illinois Library, preservation guidance; Australian Institute for the Conservation of Cultural Material, Visual Glossary; Victoria and Albert Museum, conservation blog, 2014; ISO 18916";
const INSTEAD =
  "Uncoated polyester, polyethylene or polypropylene, or paper, that passed the photographic activity test takes its place. A print that does not slide out by itself stays where it is: do not pull, ask a conservator.";

/** What the enclosures of its place ask for. */
export const ENCLOSURE_CAUTIONS: readonly CautionRule[] = [
  {
    id: "pvc-enclosure",
    level: "caution",
    title: "PVC enclosure: it sticks to the image",
    text: `The softener in PVC comes out and makes the image stick. ${INSTEAD}`,
    cause: "Its place is recorded with enclosures of PVC.",
    source: SOURCE,
    defer: DEFER,
    enclosureMaterials: ["pvc"],
    forbids: [],
  },
  {
    id: "unknown-plastic-enclosure",
    level: "caution",
    title: "Plastic of unknown kind: it may be PVC",
    text: `The softener in PVC comes out and makes the image stick. Find out what it is, or replace it. ${INSTEAD}`,
    cause: "Its place is recorded with enclosures of a plastic that nobody knows.",
    source: SOURCE,
    defer: DEFER,
    enclosureMaterials: ["plastic-unknown"],
    forbids: [],
  },
];
