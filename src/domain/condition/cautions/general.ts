import { type CautionRule, DEFER } from "../caution.ts";

/** What holds for every print, or for a method with any print. */
export const GENERAL_CAUTIONS: readonly CautionRule[] = [
  {
    id: "no-rollers-for-originals",
    level: "warning",
    title: "A sheet-fed scanner can tear, press and scratch",
    text: "Use it only for modern, flat prints of which others exist, and only when the owner accepts the risk in writing. Any other way of capturing is safer.",
    cause: "The method is a sheet-fed scanner.",
    source:
      "University at Albany Libraries, Guidelines for Digital Capture, which says never; Yale University Library, Care and Handling; the exception is this program's own proposal",
    defer: DEFER,
    methods: ["sheet-fed-scanner"],
    forbids: [],
  },
  {
    id: "hands",
    level: "notice",
    title: "Clean dry hands, edges only",
    text: "Smooth gloves or clean dry hands; never touch the image. No food near it, no ink, no rubber bands, clips, tape or sticky notes; write on the sleeve before the print goes in.",
    cause: "Holds for every print.",
    source: "Library of Congress, Care, Handling and Storage of Photographs; NKU handling policy",
    defer: DEFER,
    forbids: [],
  },
  {
    id: "first-steps-only",
    level: "notice",
    title: "When in doubt: stop, set it apart, ask",
    text: "These notes are for safe first steps. They are no medical, legal or conservation advice.",
    cause: "Holds for every print.",
    source: "this program's own proposal",
    defer: DEFER,
    forbids: [],
  },
];
