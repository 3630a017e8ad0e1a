import { type CautionRule, DEFER } from "../caution.ts";

/** What can hurt the person who captures, whatever the print. */
export const STAND_CAUTIONS: readonly CautionRule[] = [
  {
    id: "stand-lamps-and-glass",
    level: "caution",
    title: "Stand, lamps and glass: mind yourself",
    text: "Weigh the stand down or clamp it, hold the camera while the column is moved, and lay cables where nobody trips. Lamps burn: let them cool before they are touched, keep them from paper and cloth, never leave them on alone, and do not look into a flash. Sheet glass cuts: smoothed edges, both hands, and none that is chipped.",
    cause: "The method is a camera on a copy stand.",
    source: "common practice, no source",
    defer: DEFER,
    methods: ["copy-stand-camera"],
    forbids: [],
  },
  {
    id: "scanner-glass-and-lamp",
    level: "caution",
    title: "Scanner: its glass cuts, its lamp dazzles",
    text: "Lean on nothing, use no scanner whose glass is cracked, and keep the lid down or look away while its lamp runs. Pull the plug before its glass is cleaned, and let the glass dry.",
    cause: "The method is a flatbed scanner.",
    source: "common practice, no source",
    defer: DEFER,
    methods: ["flatbed-scanner"],
    forbids: [],
  },
];
