import { keptShines, type ShineKind } from "../measure/light/shine-kind.ts";
import { whereTheLightStands } from "./light-advice.ts";
import type { Advice } from "./recapture-line.ts";
import { presentIn, type SeenCapture } from "./seen-capture.ts";

const CARD = "Hang black card or cloth round the lens, with a hole for it only, and stand farther away.";
const CURTAIN = "Draw the curtain or cover it, or turn the print until a mirror in its place would show the lens something dark.";

const REMEDIES: Readonly<Record<Exclude<ShineKind, "not told">, readonly [what: string, remedy: string]>> = {
  window: ["a window", CURTAIN],
  "window with something dark before it": ["a window with something dark before it, as the camera or a hand", `${CURTAIN} ${CARD}`],
  "dark shape in a veil": ["a camera, phone or hand before something wide and bright", CARD],
  lamp: ["a lamp", "Move it out of the family of angles, farther to the side or lower, or switch it off."],
  "long lamp": ["a tube or strip of lamps", "Switch it off, or move the print until the tube is out of the family of angles."],
  veil: [
    "something wide and bright, such as a wall or the ceiling",
    "Hang black cloth over what the print would mirror, or darken that part of the room and light the print from the sides alone.",
  ],
};

/** What to do about what was mirrored, if its shape tells, and where it stands. */
export function whatIsMirrored(seen: SeenCapture): Advice | null {
  const place = whereTheLightStands(seen, "glareAreaPercent");
  const read = keptShines.safeParse(presentIn(seen, "glareAreaPercent")?.detail?.reflections);
  const largest = read.success ? read.data[0] : undefined;
  if (!seen.isCamera || !largest || largest.looksLike === "not told") return place;
  const [what, remedy] = REMEDIES[largest.looksLike];
  const told = largest.sure === "likely" ? `The largest reflection looks like ${what}.` : `The largest reflection may be ${what}.`;
  return {
    sentence: [told, remedy, place?.sentence].filter((words) => words).join(" "),
    source: ["the shape of the reflection, as read", place?.source].filter((words) => words).join("; "),
  };
}
