import { type Border, borderOf, meanPxPerMm } from "../border/border.ts";
import { BORDERS_OF, type BorderProfiles, borderProfiles, type FrameAxis } from "../border/border-profiles.ts";
import { lightnessOf } from "../colour/lab.ts";
import { homographyFromMm, inverse, project } from "../homography.ts";
import { centreOf, lengthOf } from "../lines.ts";
import type { MarkedArea } from "../marked-area.ts";
import { median } from "../numbers/robust.ts";
import { evenlyWithin } from "../numbers/standard-uncertainty.ts";
import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { sizeAsSeen } from "../size-as-seen.ts";
import { findPeriodicLines } from "./periodic-lines.ts";
import { runsThroughBorders } from "./streak-along-borders.ts";
import { type SeenInPicture, seenInPicture } from "./streak-in-picture.ts";
import { findStreaks, type Streak } from "./streak-search.ts";

/**
 * Streaks and banding of the device: lines of the frame itself, so that both opposite borders of the print show them in
 * the same column or row, however the print lies.
 *
 * `streakCount`: lines up to 3 mm wide that stand out on both borders (streak-search.ts) and that the picture between
 * them does not deny. `streakDeltaL`: difference of L*, at the border's own lightness, of the strongest at its middle.
 * `bandingDeltaL`: half of what lies between brightest and darkest of lines at even distances (periodic-lines.ts), as L*
 * at the border's lightness. Nought means that none of the strength given as spread would have been missed.
 *
 * Needs: a border of 2 mm on two opposite sides. Where only one direction can be read the count is "at least". Lines of a
 * print that lies straight in its frame look the same: then the reading is fair, else firm. Moiré of textured paper
 * is no line of the device, and stands in moire.ts.
 * Not comparable when: the sampling differs greatly, since narrow streaks fade in wide pixels.
 * Source: own; the list of faults to look for (scan lines, drop-outs) is that of 36 CFR 1236.50(d)(3).
 */
export function streaks(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  if (!outline) return allAbsent("the print was not found in the frame");
  const border = borderOf(outline, context);
  if (!border) return allAbsent(`no plain border of at least 2 mm was seen; ${TURNED}`);
  const pxPerMm = meanPxPerMm(outline, context);
  const read = AXES.flatMap((axis) => {
    const profiles = borderProfiles(picture, border, axis);
    return profiles && !isClipped(profiles) ? [readAlong(picture, border, profiles, WIDEST_MM * pxPerMm)] : [];
  });
  if (read.length === 0) return allAbsent(`no two opposite sides have a plain, unclipped border that could be read; ${TURNED}`);
  const place = placer(outline, context, pxPerMm);
  const found = read.flatMap((each) => each.streaks.map((streak) => ({ ...streak, ...place(streak, each) }))).sort(byStrength);
  const banding = read.flatMap((each) => (each.banding ? [{ ...each.banding, axis: each.axis, lightness: each.luminance }] : []));
  const faintest = Math.max(...read.map(({ faintest, luminance }) => inLightness(faintest, luminance)));
  const isStraight = read.some((each) => each.isStraight);
  const common = {
    reliability: isStraight ? ("fair" as const) : ("firm" as const),
    ...(read.length < 2 && { bound: "lower" as const }),
  };
  const note = noteOn(read, found.length + banding.length > 0 && isStraight);
  const bands = banding.map(({ periodPx, strength, axis, lightness }) => ({
    lines: LINES[axis],
    periodMm: periodPx / pxPerMm,
    deltaL: inLightness(strength, lightness),
  }));
  return [
    {
      name: "streakCount",
      value: found.length,
      ...common,
      ...note,
      detail: { streaks: found.slice(0, MOST_LISTED), readOn: read.map(({ axis }) => BORDERS_OF[axis]) },
      area: [areaOf(read, picture)],
    },
    {
      name: "streakDeltaL",
      value: Math.max(0, ...found.map(({ deltaL }) => Math.abs(deltaL))),
      spread: found[0]?.spread ?? evenlyWithin(faintest),
      ...common,
      ...note,
      detail: { faintestSeen: faintest },
    },
    { name: "bandingDeltaL", value: Math.max(0, ...bands.map(({ deltaL }) => deltaL)), ...common, ...note, detail: { bands } },
  ];
}

const AXES = ["columns", "rows"] as const;
const WIDEST_MM = 3;
const MOST_LISTED = 12;
const TURNED = "a second capture with the print turned by 90° would tell: streaks stay with the frame, the picture turns";
const LINES: Readonly<Record<FrameAxis, string>> = { columns: "down the frame", rows: "across the frame" };
/** Borders this near to white hide what is brighter. */
const LARGEST_LIGHT = 0.97;
/** A line of the print must leave the column of a streak by so many px between both borders to be told from one. */
const TOLD_APART_PX = 4;

const allAbsent = (absent: string): Reading[] =>
  (["streakCount", "streakDeltaL", "bandingDeltaL"] as const).map((name) => ({ name, absent }));

const isClipped = ({ near, far }: BorderProfiles) => Math.max(median(near), median(far)) > Math.log(LARGEST_LIGHT);

type Along = {
  readonly axis: FrameAxis;
  readonly streaks: readonly (Streak & { readonly inPicture: SeenInPicture })[];
  readonly banding: { readonly periodPx: number; readonly strength: number } | null;
  readonly luminance: number;
  /** ln of light that the narrowest streak must have to be found */
  readonly faintest: number;
  readonly isStraight: boolean;
};

function readAlong(picture: Picture, border: Border, profiles: BorderProfiles, widestPx: number): Along {
  const { axis, apartPx } = profiles;
  const banding = findPeriodicLines(profiles);
  const { streaks: found, faintest } = findStreaks(banding?.without ?? profiles, widestPx);
  // How far a line of the print drifts from the frame's column between the borders.
  const side = axis === "columns" ? border.sheet.left : border.sheet.top;
  const slope = axis === "columns" ? side.ny / side.nx : side.nx / side.ny;
  return {
    axis,
    streaks: found
      .filter((streak) => runsThroughBorders(picture, border, axis, streak))
      .map((streak) => ({ ...streak, inPicture: seenInPicture(picture, border.image, axis, streak) }))
      .filter(({ inPicture }) => inPicture !== "not seen"),
    banding,
    luminance: Math.exp((median(profiles.near) + median(profiles.far)) / 2),
    faintest,
    isStraight: Math.abs(slope * apartPx) < TOLD_APART_PX,
  };
}

/** A change of ln Y as a change of L* at that luminance. */
const inLightness = (strength: number, luminance: number) => lightnessOf(luminance * Math.exp(strength)) - lightnessOf(luminance);

/** From edge to edge of the frame, since the device made them. */
function areaOf(read: readonly Along[], { widthPx, heightPx }: Picture): MarkedArea {
  const loops = read.flatMap(({ axis, streaks }) =>
    streaks.map(({ atPx, widthPx: streakPx }) => {
      const lengthPx = axis === "columns" ? widthPx : heightPx;
      const share = (px: number) => Math.min(1, Math.max(0, (px + 0.5) / lengthPx));
      const [from, to] = [share(atPx - streakPx / 2), share(atPx + streakPx / 2)];
      const across = [
        { x: from, y: 0 },
        { x: to, y: 0 },
        { x: to, y: 1 },
        { x: from, y: 1 },
      ];
      return axis === "columns" ? across : across.map(({ x, y }) => ({ x: y, y: x })).reverse();
    }),
  );
  return { of: "frame", loops };
}

const byStrength = (a: { deltaL: number }, b: { deltaL: number }) => Math.abs(b.deltaL) - Math.abs(a.deltaL);

/** Where a streak crosses the middle of the sheet, and where it lies in the frame: there the device is to be cleaned. */
function placer(outline: Outline, context: MeasureContext, pxPerMm: number) {
  const { sheet } = outline;
  const size = sizeAsSeen(sheet, outline.image, context).sheet ?? {
    widthMm: (lengthOf(sheet, "top") + lengthOf(sheet, "bottom")) / 2 / pxPerMm,
    heightMm: (lengthOf(sheet, "left") + lengthOf(sheet, "right")) / 2 / pxPerMm,
  };
  const toMm = inverse(homographyFromMm(size.widthMm, size.heightMm, sheet));
  const middle = centreOf(sheet);
  return (streak: Streak & { inPicture: SeenInPicture }, { axis, luminance }: Along) => {
    const onSheet = axis === "columns" ? project(toMm, streak.atPx, middle.y).x : project(toMm, middle.x, streak.atPx).y;
    return {
      line: LINES[axis],
      alongSheetMm: onSheet,
      fromFrameEdgeMm: (streak.atPx + 0.5) / pxPerMm,
      widthMm: streak.widthPx / pxPerMm,
      deltaL: inLightness(streak.strength, luminance),
      spread: Math.abs(inLightness(streak.strengthSpread, luminance)),
      inPicture: streak.inPicture,
    };
  };
}

function noteOn(read: readonly Along[], isDoubtful: boolean): { note?: string } {
  const notes = [
    read.length < 2
      ? `Read on the ${BORDERS_OF[(read[0] as Along).axis]} border only, so lines of the other direction were not looked for.`
      : "",
    isDoubtful
      ? "The print lies so straight in the frame that a line of the print itself would look the same; a capture with the print turned a little would tell."
      : "",
  ].filter(Boolean);
  return notes.length > 0 ? { note: notes.join(" ") } : {};
}
