import { z } from "zod";
import { boundInWords, valueInWords } from "#domain/aim/measure-words.ts";
import { homographyFromMm, project } from "#domain/measure/homography.ts";
import { centreOf, endsOf, SIDES } from "#domain/measure/lines.ts";
import { isPresent } from "#domain/measure/reading.ts";
import type { Drawing, ShownOverlay } from "#views/parts/overlays.tsx";
import { absent, notRead, readingOf, type Seen } from "./seen.ts";

const place = z.object({ across: z.number(), down: z.number(), sfr50CyPerMm: z.number().positive() });

/** Circles on the edges and over the picture, as large as the blur there, and where it gets softer. */
export function sharpnessOverlay(seen: Seen): ShownOverlay {
  const falloff = readingOf(seen, "focusFalloffPercent");
  if (!falloff || !isPresent(falloff)) return notRead("sharpness", falloff);
  const [edges, tiles] = [falloff.detail?.places, falloff.detail?.tiles].map((each) => z.array(place).safeParse(each).data ?? []);
  const read = [...(edges ?? []), ...(tiles ?? [])];
  if (read.length === 0 || !seen.outline)
    return absent(
      "sharpness",
      `${valueInWords(falloff.name, falloff.value)} softer on one side. The print's size is not known, so it is not drawn.`,
    );
  const map = homographyFromMm(1, 1, seen.outline.sheet);
  const softest = Math.min(...read.map(({ sfr50CyPerMm }) => sfr50CyPerMm));
  const circles = read.map(({ across, down, sfr50CyPerMm }) => ({ at: project(map, across, down), size: softest / sfr50CyPerMm }));
  const direction = readingOf(seen, "focusFalloffDegrees");
  const isSeen = isPresent(direction);
  const circlesSay = tiles?.length
    ? "The larger a circle, the softer it is there: on the edges by themselves, inside by what the picture shows, which may be soft of itself."
    : "The larger a circle, the softer the edge there.";
  const words = isSeen
    ? `Falls off by ${boundInWords(falloff.name, falloff.value, falloff.bound ?? null)} ${towards(direction.value)} (arrow). ${circlesSay}`
    : `No side is softer than the others. ${circlesSay}`;
  const drawing: Drawing = {
    kind: "circles",
    circles,
    arrow: isSeen ? { from: centreOf(seen.outline.sheet), degrees: direction.value } : null,
  };
  return { id: "sharpness", words, isOn: false, isHint: falloff.reliability === "weak", drawing };
}

const DIRECTIONS = [
  "to the right",
  "to the lower right",
  "downwards",
  "to the lower left",
  "to the left",
  "to the upper left",
  "upwards",
  "to the upper right",
];
const towards = (degrees: number) => DIRECTIONS[Math.round(degrees / 45) % 8] as string;

const sides = z.array(z.object({ of: z.enum(["sheet", "picture"]), side: z.enum(SIDES), refused: z.string().nullable() }));
const from = z.object({ from: z.enum(["sheet", "picture"]) }).nullable();

/** Which sides the resolution was read from. */
export function edgesOverlay(seen: Seen): ShownOverlay {
  const sfr = readingOf(seen, "sfr50CyPerMm");
  if (!sfr || !isPresent(sfr)) return notRead("edges", sfr);
  const read = z.object({ sides, across: from, down: from }).safeParse(sfr.detail);
  if (!read.success || !seen.outline) return absent("edges", "Which edges were used was not kept.");
  const { across, down } = read.data;
  const lines = read.data.sides.flatMap(({ of, side, refused }) => {
    const quad = of === "picture" ? seen.outline?.image : seen.outline?.sheet;
    const usedOf = side === "left" || side === "right" ? across?.from : down?.from;
    return quad && refused === null && usedOf === of ? [{ ends: endsOf(quad, side), name: `${side} side of the ${of}` }] : [];
  });
  if (lines.length === 0) return absent("edges", "Which edges were used was not kept.");
  return {
    id: "edges",
    words: `Resolution was read from the ${listed(lines.map(({ name }) => name))}.`,
    isOn: false,
    isHint: false,
    drawing: { kind: "lines", lines: lines.map(({ ends }) => ends) },
  };
}

const listed = (parts: readonly string[]) =>
  parts.length < 2 ? parts.join("") : `${parts.slice(0, -1).join(", ")} and ${parts[parts.length - 1]}`;
