import { markedArea } from "../marked-area.ts";
import type { Picture } from "../picture.ts";
import { boxesOf } from "../planes/mask.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { sizeAsSeen } from "../size-as-seen.ts";
import { type Fringes, findFringes } from "./fringe-search.ts";
import { plainShare, type RingPlanes, ringPlanes } from "./ring-planes.ts";

/**
 * Interference rings (Newton's rings): share of the picture, in percent, that the largest patch of fringes covers, in the
 * light or in the ratio of red to blue, where tones of the picture show less (fringe-search.ts, ring-planes.ts). Fringes are
 * told from stripes, weave and grooves of the picture by what the gap between two surfaces that touch does: lines turn round
 * the place of contact, and stand closer the farther they are from it (squares of their radii grow in equal steps:
 * r² = m λ R). So a patch counts when it covers 1 cm², its lines turn, and their period changes by a third.
 *
 * Needs: a tenth of the picture plain enough for faint fringes to be seen; else absent, not nought. Nought means none in
 * that part. At least: fringes finer than one a mm, and those over detail, are not seen.
 * Source: r² = m λ R: any textbook of optics, e.g. Hecht, Optics, on Newton's rings (from memory); the rest: own.
 */
export function rings(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  const name = "ringAreaPercent";
  if (!outline) return [{ name, absent: "the print was not found in the frame" }];
  const planes = ringPlanes(picture, outline, context);
  if (!planes) return [{ name, absent: "the picture is too small, or the frame cuts it off" }];
  const plain = plainShare(planes.light, planes.pxPerMm, FAINTEST.light);
  const looked = [
    ...(plain >= LEAST_PLAIN ? (["light"] as const) : []),
    ...(plainShare(planes.colour, planes.pxPerMm, FAINTEST.colour) >= LEAST_PLAIN ? (["colour"] as const) : []),
  ];
  const found = looked
    .flatMap((seenIn) => {
      const fringes = findFringes(planes[seenIn], planes.pxPerMm);
      return fringes && isInterference(fringes) ? [{ seenIn, fringes }] : [];
    })
    .sort((a, b) => b.fringes.areaMm2 - a.fringes.areaMm2)[0];
  // Fringes in the colour may be found over detail, but that none are there tells little.
  if (!found && plain < LEAST_PLAIN)
    return [{ name, absent: `the picture has too much detail for rings to be told from it; ${WOULD_TELL}` }];
  const common = { reliability: "fair", bound: "lower" } as const;
  if (!found)
    return [
      {
        name,
        value: 0,
        ...common,
        note: `None in the ${Math.round(100 * plain)} % of the picture plain enough to show rings of about 5 % of the light; fainter ones would not have been seen.`,
        detail: { plainPercent: 100 * plain },
      },
    ];
  return [
    {
      name,
      value: (100 * found.fringes.areaMm2) / areaMm2(planes),
      ...common,
      note: "Fringes that turn and crowd as interference rings do. A second capture with the print turned by 90°, or lying free of the glass, would tell for certain.",
      detail: {
        of: "picture",
        seenIn: found.seenIn,
        contactMm: found.fringes.centre,
        contrastPercent: 100 * found.fringes.contrast,
        periodMm: { closest: found.fringes.periodsMm[0], middle: found.fringes.periodsMm[1], widest: found.fringes.periodsMm[2] },
        places: boxesOf(
          found.fringes.mask,
          found.fringes.width,
          found.fringes.height,
          sizeAsSeen(outline.sheet, outline.image, context).image,
        ).slice(0, MOST_PLACES),
      },
      area: [markedArea("picture", found.fringes.mask, found.fringes.width, found.fringes.height)],
    },
  ];
}

/** Local standard deviation of a plain place, ln of light. */
const FAINTEST = { light: 0.03, colour: 0.05 } as const;
const LEAST_PLAIN = 0.1;
const LEAST_MM2 = 100;
const LEAST_TURN = 0.15;
const LEAST_CHIRP = 1.3;
const MOST_PLACES = 6;
const WOULD_TELL =
  "a second capture with the print turned by 90°, or lying free of the glass, would tell: rings change, the picture does not";

export const isInterference = ({ areaMm2, turn, periodsMm }: Fringes) =>
  areaMm2 >= LEAST_MM2 && turn > LEAST_TURN && periodsMm[2] / periodsMm[0] > LEAST_CHIRP;

const areaMm2 = ({ light, pxPerMm }: RingPlanes) => (light.width * light.height) / pxPerMm ** 2;
