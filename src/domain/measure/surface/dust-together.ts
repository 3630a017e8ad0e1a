import type { Laid } from "../laying/lay-finely.ts";
import { type MarkedArea, markedArea } from "../marked-area.ts";
import { boxesOf } from "../planes/mask.ts";
import type { Reading } from "../reading.ts";
import { isLine } from "./dust.ts";
import { type Found, type OfOne, type Placed, specksOfEach } from "./specks-of-each.ts";
import { specksOnGlass } from "./specks-on-glass.ts";

/**
 * Dust, hairs and scratches by comparison, over the whole picture: specks (specks.ts) in ln of light of one capture against the
 * middle one of all (of two: the other) at the same place of the print, tones and smooth light matched (matched.ts). What only one shows there lay on the
 * surface or the glass when it was made; what all show cancels, and is counted apart (specks-in-all.ts). Shapes,
 * lengths and units as in dust.ts; how far a speck must stand off, by detail and tone round it: local-limits.ts.
 *
 * Of two captures a dark speck in one and a light one in the other leave the same, and of any number a sharper one shows grain
 * more strongly. So a speck counts for the capture that departs from a ring round it 1.6 times (of two: twice) as far as every
 * other does; what cannot be told so is not counted. Over detail about one in ten falls to the wrong one of two. Pieces of lines that run along the
 * columns or rows of a frame, as a scanner's streaks do, are left out (lines-along-frame.ts), and a speck as faint as the line it lies on with them.
 *
 * Density: over the part of the picture where a speck of a fifth of the light would be found. Never more than fair. Density and length are "at least": specks of less than three cells (a cell: 1/18 to 1/9 mm), and those on strong detail, are not seen. Spread: the square root of their number.
 *
 * Needs fine planes of two captures of at least 6 px to the mm, and 2 cm² of such picture. Source: own.
 */
export function dustTogether(laid: readonly Laid[]): Reading[][] {
  const seen = laid.flatMap((each) => (each.fine && each.fine.ownPxPerMm >= LEAST_PX_PER_MM ? [{ each, fine: each.fine }] : []));
  const whyNot = (each: Laid) => each.notFine ?? (seen.length < 2 ? NO_OTHER : "it is sampled too coarsely to show specks");
  const found = seen.length < 2 ? null : specksOfEach(seen.map(({ fine }) => fine));
  const glass = found && specksOnGlass(found.perCapture);
  return laid.map((each) => {
    const index = seen.findIndex((one) => one.each === each);
    if (index < 0 || seen.length < 2) return allAbsent(whyNot(each));
    const own = found?.perCapture[index];
    if (!own) return allAbsent("too little of the picture is seen in all captures");
    if (own.seenCm2 < LEAST_CM2) return allAbsent(TOO_MUCH_LEFT);
    return readingsOf(each, found, own, glass?.[index] ?? 0);
  });
}

export const DUST_TOGETHER = ["dustPerCm2", "scratchLengthMm"] as const;

const LEAST_PX_PER_MM = 6;
const LEAST_CM2 = 2;
const MOST_PLACES = 12;
const NO_OTHER =
  "no other capture of at least 150 pixels per inch could be followed in fine detail to tell specks of one from the picture; another capture would tell";
const TOO_MUCH_LEFT =
  "the captures differ too much in light, sharpness or noise for specks of one to be told from what is left between them; captures of one method would tell";

const allAbsent = (absent: string): Reading[] => DUST_TOGETHER.map((name) => ({ name, absent }));

function readingsOf(each: Laid, found: Found, { specks: all, seenCm2 }: OfOne, onTheGlass: number): Reading[] {
  const specks = all.filter(({ kind }) => kind === "dust");
  const lines = all.filter(isLine).sort((a, b) => b.lengthMm - a.lengthMm);
  const comparedWith = found.perCapture.length - 1;
  const common = {
    bound: "lower" as const,
    reliability: "fair" as const,
    note: noteOf(found, seenCm2, onTheGlass),
  };
  const [dustMask, lineMask] = [maskOf(each, found, specks), maskOf(each, found, lines)];
  return [
    {
      name: "dustPerCm2",
      value: specks.length / seenCm2,
      spread: Math.sqrt(Math.max(1, specks.length)) / seenCm2,
      ...common,
      detail: {
        of: "picture",
        comparedWith,
        pictureCm2: found.pictureCm2,
        seenCm2,
        specks: specks.length,
        onGlass: onTheGlass,
        inAll: found.inAll,
        largerMarks: all.length - specks.length - lines.length,
        places: dustMask.places,
      },
      area: [dustMask.area],
    },
    {
      name: "scratchLengthMm",
      value: lines[0]?.lengthMm ?? 0,
      ...common,
      detail: {
        of: "picture",
        comparedWith,
        lines: lines.slice(0, MOST_PLACES).map(({ kind, lengthMm, isDark }) => ({ kind, lengthMm, isDark })),
        places: lineMask.places,
      },
      area: [lineMask.area],
    },
  ];
}

function noteOf({ perCapture, pictureCm2, inAll }: Found, seenCm2: number, onTheGlass: number): string {
  const [others, show] = perCapture.length > 2 ? ["the others", "do"] : ["the other", "does"];
  const glass = onTheGlass > 0 ? ` ${onTheGlass} of them stand at the same place of the glass in another capture.` : "";
  const all =
    inAll && inAll.specks > 0
      ? ` Every capture shows ${inAll.specks} more on plain parts of the picture: those are in the print, or on the glass where it lay in the same place.`
      : "";
  return `Over ${Math.round((100 * seenCm2) / pictureCm2)} % of the picture: what this capture shows and ${others} ${show} not lay on the print or the glass when it was made.${glass}${all}`;
}

function maskOf(
  { asSeen, sizeAsSeen }: Laid,
  { width, height }: Found,
  specks: readonly Placed[],
): { places: ReturnType<typeof boxesOf>; area: MarkedArea } {
  const data = new Float32Array(width * height);
  for (const { core } of specks) for (const at of core) data[at] = 1;
  const seen = asSeen({ width, height, data });
  const cells = Uint8Array.from(seen.data);
  return {
    places: boxesOf(cells, seen.width, seen.height, sizeAsSeen).slice(0, MOST_PLACES),
    area: markedArea("picture", cells, seen.width, seen.height),
  };
}
