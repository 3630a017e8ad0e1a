import { homographyFromMm, inverse, project, scaleAt } from "../homography.ts";
import { lengthOf } from "../lines.ts";
import { median } from "../numbers/robust.ts";
import { evenlyWithin } from "../numbers/standard-uncertainty.ts";
import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Present, Reading } from "../reading.ts";
import { type SizeMm, sizeAsSeen } from "../size-as-seen.ts";
import { type BlurPlace, type BlurTerms, fitBlur, varianceAt } from "./blur-surface.ts";
import { type InsideBlur, insideBlur } from "./inside-blur.ts";
import { isSeen, LEAST_VARIANCE_SHARE, motionShareOf, movement, movementReading, type Told, VARIANCE_AT_ONE } from "./movement.ts";
import { type PrintEdge, printEdges } from "./print-edges.ts";
import { sharpeningOf } from "./sharpening.ts";
import { slantedBlur } from "./slanted-blur.ts";
import { softArea } from "./soft-area.ts";
import { type TileRings, tileRings } from "./tile-rings.ts";

/**
 * Focus across the print, from its own edges piece by piece (see slanted-edge.ts), whatever the picture shows. Each piece
 * gives the frequency f of half contrast, and with it the variance of blur s² = ln 2 / (2 π² f²), mm² of the print; a
 * smooth surface through them (see blur-surface.ts) tells three things apart:
 *
 * - focusFalloffPercent: 100 · (1 - f_soft / f_sharp) between the two points where the line through the middle of the sheet
 *   along the slope of the surface meets its rim: 0 = even, 50 = half the resolution. focusFalloffDegrees: where it gets
 *   softer, as seen, 0 = right, 90 = down; absent where nothing falls off.
 * - a bowl (curl, curved field, or a tilt with the focus in the middle): corners softer than the middles of the sides; in the
 *   detail, and no fall-off.
 * - motionMm: blur of one direction at all places; with detail of the picture for the diagonals (see movement.ts).
 *
 * Detail inside the picture (inside-blur.ts) joins the edges in the fit. Below three readable sides it stands alone: then only a fall-off that is
 * seen is told, weak, and no movement.
 *
 * Errors: `spread` is one sigma of the fit. Assumes that opposite sides of the paper are cut alike.
 * Source of the edge method: ISO 12233:2014; surface and rules: own.
 */
export function focus(
  picture: Picture,
  outline: Outline | null,
  context: MeasureContext,
  edges: readonly PrintEdge[] = outline ? printEdges(picture, outline, context) : [],
): Reading[] {
  const absent = (reason: string): Reading[] => NAMES.map((name) => ({ name, absent: reason }));
  if (!outline) return absent("the print was not found in the frame");
  const known = sizeAsSeen(outline.sheet, outline.image, context).sheet;
  const size = known ?? sizePx(outline);
  const places = placesOf(edges, outline, size);
  const sides = new Set(places.map(({ side }) => side)).size;
  const fine = tileRings(picture, outline, 1);
  const inside = insideOf(picture, outline, size, fine);
  if (sides < FEWEST_SIDES && !inside) return absent(`${sidesInWords(sides)}, and the picture is too plain or too noisy ${TO_TELL_BY}`);
  const surface = fitBlur(places, inside);
  if (!surface) return absent("the edges are too few to tell how sharpness changes across the print");
  const told = (of: (terms: BlurTerms) => number): Told => ({ value: of(surface.terms), spread: surface.spreadOf(of) });
  const isByEdges = sides >= FEWEST_SIDES;
  const least = isByEdges ? 0 : (inside?.leastVariance ?? 0);
  const tilt = told((terms) => falloffOf(terms, size, least));
  const bowl = told(bowlOf);
  const dome = told(domeOf);
  const moved = movement(surface.terms, told(motionShareOf), slantedBlur(fine), mmPerPxOf(outline, size));
  const kind = kindOf({ tilt, bowl, dome, motion: isByEdges ? moved.share : NOTHING });
  // without edges an even capture is not told from one whose content hides a fall-off
  const isUnsure = isByEdges ? !isPossible(surface.terms, places) || (tilt.spread > MOST_SPREAD && !isSeen(tilt)) : !isSeen(tilt);
  if (isUnsure) return absent(isByEdges ? TOO_UNSURE : `${sidesInWords(sides)}, and ${CONTENT_MAY_FEIGN}`);
  const trust = isByEdges ? trustIn(places, tilt, sharpeningOf(edges, context).flagged) : "weak";
  const common = {
    reliability: trust,
    detail: {
      kind,
      bowlPercent: 100 * Math.max(0, bowl.value),
      from: isByEdges ? (inside ? "edges and picture" : "edges") : "picture",
      places: places.map(keptOf(known !== null)),
      ...(inside && known && { tiles: tilesOf(inside, surface.terms) }),
    },
  };
  return [
    {
      name: "focusFalloffPercent",
      value: 100 * tilt.value,
      spread: 100 * tilt.spread,
      ...common,
      ...areaOf(kind, surface.terms),
      ...noteOf(kind, surface.terms, isByEdges),
    },
    degreesOf(surface.terms, size, tilt, told, common.reliability),
    isByEdges && known
      ? movementReading(moved, trust)
      : { name: "motionMm", absent: isByEdges ? NO_SIZE : `${sidesInWords(sides)}; another capture of the print would tell` },
  ];
}

/** Coarser samples are looked at only where the finest show no detail: files that hold far more pixels than detail. */
function insideOf(picture: Picture, outline: Outline, size: SizeMm, fine: readonly TileRings[]): InsideBlur | null {
  return (
    insideBlur(fine, 1, outline, size) ??
    COARSER_STEPS_PX.reduce<InsideBlur | null>(
      (found, step) => found ?? insideBlur(tileRings(picture, outline, step), step, outline, size),
      null,
    )
  );
}

const COARSER_STEPS_PX = [2, 4];
const FEWEST_SIDES = 3;
const TO_TELL_BY = "to tell by its own detail; another capture of the print would tell";
const CONTENT_MAY_FEIGN =
  "what its detail shows is no more than a picture may be soft of itself, as where its background is; another capture of the print would tell";
const sidesInWords = (sides: number) => `the edges of only ${sides} of 4 sides can be read piece by piece`;
const NOTHING: Told = { value: 0, spread: 1 };

const NAMES = ["focusFalloffPercent", "focusFalloffDegrees", "motionMm"] as const;
const FIRM_SPREAD = evenlyWithin(0.04);
const FAIR_SPREAD = evenlyWithin(0.06);
const MOST_SPREAD = evenlyWithin(0.15);
/** A fall-off this many times its spread can be used, however wide the spread. */
const CLEAR_TIMES_SPREAD = 4;
const NO_SIZE = "the print's size is not known, so a movement cannot be told in mm";
const TOO_UNSURE =
  "the edges of the print scatter too much to tell how sharpness changes across it; another capture of the print would tell";

export type FocusKind = "even" | "tilt" | "bowl" | "dome" | "motion";
type Place = BlurPlace & { readonly side: PrintEdge["side"]; readonly sfr50: number };

const sizePx = ({ sheet }: Outline): SizeMm => ({
  widthMm: (lengthOf(sheet, "top") + lengthOf(sheet, "bottom")) / 2,
  heightMm: (lengthOf(sheet, "left") + lengthOf(sheet, "right")) / 2,
});

function mmPerPxOf(outline: Outline, size: SizeMm): number {
  const inPx = sizePx(outline);
  return Math.sqrt((size.widthMm * size.heightMm) / (inPx.widthMm * inPx.heightMm));
}

function placesOf(edges: readonly PrintEdge[], outline: Outline, { widthMm, heightMm }: SizeMm): Place[] {
  const map = homographyFromMm(widthMm, heightMm, outline.sheet);
  if (!map.every(Number.isFinite)) return [];
  const back = inverse(map);
  return edges.flatMap(({ of, side, direction, stretches }) =>
    stretches.map(({ place, sfr50CyPerPx, spreadShare }): Place => {
      const mm = project(back, place.x, place.y);
      const scale = scaleAt(map, mm.x, mm.y);
      const sfr50 = sfr50CyPerPx * (direction === "across" ? scale.alongX : scale.alongY);
      return {
        side,
        of,
        direction,
        u: (2 * mm.x) / widthMm - 1,
        v: (2 * mm.y) / heightMm - 1,
        sfr50,
        variance: VARIANCE_AT_ONE / sfr50 ** 2,
        spreadShare: 2 * spreadShare,
      };
    }),
  );
}

const BY_CONTENT =
  "Read from the picture's own detail, since the edges of the print cannot be read: what the picture shows may itself be softer there.";

/** Slope of the surface at the middle of the sheet, per unit of length. */
const slopeOf = (terms: BlurTerms, { widthMm, heightMm }: SizeMm) => ({
  x: (2 * (terms[1] as number)) / widthMm,
  y: (2 * (terms[2] as number)) / heightMm,
});

/** @param least variance that no capture is below, where no edge tells how sharp this one is */
function falloffOf(terms: BlurTerms, size: SizeMm, least: number): number {
  const slope = slopeOf(terms, size);
  const length = Math.hypot(slope.x, slope.y);
  if (length === 0) return 0;
  const [u, v] = [slope.x / length / size.widthMm, slope.y / length / size.heightMm];
  const reach = 1 / Math.max(Math.abs(u), Math.abs(v));
  const [sharp, soft] = [-reach, reach].map((by) => Math.max(least, varianceAt(terms, u * by, v * by))) as [number, number];
  return 1 - Math.sqrt(Math.min(1, Math.max(LEAST_VARIANCE_SHARE, sharp / soft)));
}

/** A surface that falls far below all that was read, anywhere on the rim, was fitted to scatter. */
function isPossible(terms: BlurTerms, places: readonly Place[]): boolean {
  const least = LEAST_OF_READ * Math.min(...places.map(({ variance }) => variance));
  return RIM_STEPS.every((t) =>
    [varianceAt(terms, t, -1), varianceAt(terms, t, 1), varianceAt(terms, -1, t), varianceAt(terms, 1, t)].every((value) => value > least),
  );
}

const LEAST_OF_READ = 0.25;
/** As far along the sides as they are read. */
const RIM_STEPS = [-0.75, -0.4, 0, 0.4, 0.75];

/** How much softer the corners are than the middles of the sides, both by their mean variance. */
function bowlOf(terms: BlurTerms): number {
  const curved = (terms[4] as number) + (terms[5] as number);
  const corners = (terms[0] as number) + curved;
  const middles = (terms[0] as number) + curved / 2;
  return 1 - Math.sqrt(Math.max(LEAST_VARIANCE_SHARE, middles / corners));
}

/** How much softer the middle is than the rim, both by their mean variance. */
function domeOf(terms: BlurTerms): number {
  const middle = varianceAt(terms, 0, 0);
  const rim = (terms[0] as number) + (2 / 3) * ((terms[4] as number) + (terms[5] as number));
  return middle > 0 ? 1 - Math.sqrt(Math.max(LEAST_VARIANCE_SHARE, rim / middle)) : 0;
}

/** Whether blur grows both ways from a line and hardly along it: the larger of both curvatures is all. */
function isValley(terms: BlurTerms): boolean {
  const [uv, uu, vv] = [terms[3] as number, terms[4] as number, terms[5] as number];
  const spread = Math.hypot(uu - vv, uv);
  return (uu + vv - spread) / 2 < MOST_ALONG_VALLEY * ((uu + vv + spread) / 2);
}

const MOST_ALONG_VALLEY = 0.35;

function kindOf(parts: Readonly<Record<"tilt" | "bowl" | "dome" | "motion", Told>>): FocusKind {
  const seen = (["tilt", "bowl", "dome", "motion"] as const).filter((kind) => isSeen(parts[kind]));
  return seen.reduce<FocusKind>((most, kind) => (most === "even" || parts[kind].value > parts[most].value ? kind : most), "even");
}

/** Software sharpens places differently by their light and noise, so that a sharpened file is never firm. */
function trustIn(places: readonly Place[], { value, spread }: Told, isSharpened: boolean): Present["reliability"] {
  const fromSheet = new Set(places.flatMap((place) => (place.of === "sheet" ? [place.side] : [])));
  if (spread <= FIRM_SPREAD && fromSheet.size === 4 && !isSharpened) return "firm";
  return spread <= FAIR_SPREAD || value > CLEAR_TIMES_SPREAD * spread ? "fair" : "weak";
}

function noteOf(kind: FocusKind, terms: BlurTerms, isByEdges: boolean): Pick<Present, "note"> {
  if (!isByEdges) return { note: BY_CONTENT };
  if (kind === "dome") return { note: "The middle is softer than the rim: the print bulges, or the focus lies on its rim." };
  if (kind === "bowl" && isValley(terms))
    return { note: "Soft towards two opposite sides: the camera is tilted with the focus in the middle, or the print is bent." };
  if (kind === "bowl") return { note: "The corners are softer than the sides: the print is curled, or the lens is soft towards its rim." };
  if (kind === "motion") return { note: "Soft in one direction everywhere: the camera or the print moved." };
  return {};
}

function degreesOf(
  terms: BlurTerms,
  size: SizeMm,
  tilt: Told,
  told: (of: (terms: BlurTerms) => number) => Told,
  reliability: Present["reliability"],
): Reading {
  const name = "focusFalloffDegrees";
  if (!isSeen(tilt)) return { name, absent: "sharpness falls off too little to have a direction" };
  const degrees = (of: BlurTerms) => (180 / Math.PI) * Math.atan2(slopeOf(of, size).y, slopeOf(of, size).x);
  const value = degrees(terms);
  const { spread } = told((of) => ((degrees(of) - value + 540) % 360) - 180);
  return { name, value: (value + 360) % 360, spread, reliability };
}

const keptOf = (inMm: boolean) => (place: Place) => ({
  of: place.of,
  side: place.side,
  across: rounded((place.u + 1) / 2),
  down: rounded((place.v + 1) / 2),
  ...(inMm && { sfr50CyPerMm: rounded(place.sfr50) }),
});

/** Of a movement all places are soft alike. */
const areaOf = (kind: FocusKind, terms: BlurTerms): Pick<Present, "area"> =>
  kind === "even" || kind === "motion" ? {} : { area: softArea((u, v) => varianceAt(terms, u, v)) };

/** The tiles as edges would be read there: all raised by one amount to the level that the edges tell. */
function tilesOf({ tiles }: InsideBlur, terms: BlurTerms) {
  const raised = median(tiles.map(({ u, v, value }) => varianceAt(terms, u, v) - value));
  return tiles.map(({ u, v, value }) => ({
    across: rounded((u + 1) / 2),
    down: rounded((v + 1) / 2),
    sfr50CyPerMm: rounded(Math.sqrt(VARIANCE_AT_ONE / Math.max(LEAST_OF_READ * varianceAt(terms, u, v), value + raised))),
  }));
}

const rounded = (value: number) => Number(value.toPrecision(4));
