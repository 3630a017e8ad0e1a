import { z } from "zod";
import { homographyFromMm, inverse, project } from "../measure/homography.ts";
import type { Quad } from "../measure/picture.ts";
import { isPresent, type Reading } from "../measure/reading.ts";
import type { SizeMm } from "../measure/size-as-seen.ts";
import { LIGHTNESS_STEP } from "./tones.ts";

/** As many x as y. */
export type Curve = { readonly x: readonly number[]; readonly y: readonly number[] };

const SFR_POINTS = 33;
const PLACES = 6;

const curves = z.array(z.object({ cyPerMm: z.array(z.number()).min(2), modulation: z.array(z.number()).min(2) })).min(1);

/** Contrast kept against cycles per mm: the mean over the edges that resolution was read from, as far as all of them reach. */
export function meanSfr(readings: readonly Reading[]): Curve | null {
  const read = curves.safeParse(detailOf(readings, "sfr50CyPerMm")?.curves);
  if (!read.success) return null;
  const reach = Math.min(...read.data.map(({ cyPerMm }) => cyPerMm.at(-1) ?? 0));
  const x = Array.from({ length: SFR_POINTS }, (_, index) => (reach * index) / (SFR_POINTS - 1));
  const y = x.map((at) => read.data.reduce((sum, { cyPerMm, modulation }) => sum + between(cyPerMm, modulation, at), 0) / read.data.length);
  return { x, y };
}

function between(xs: readonly number[], ys: readonly number[], at: number): number {
  const after = xs.findIndex((x) => x >= at);
  if (after <= 0) return ys[Math.max(0, after)] as number;
  const [x0, x1] = [xs[after - 1] as number, xs[after] as number];
  const share = x1 > x0 ? (at - x0) / (x1 - x0) : 0;
  return (ys[after - 1] as number) * (1 - share) + (ys[after] as number) * share;
}

/** Percent of the picture in each step of lightness. */
export const lightnessCurve = (shares: readonly number[]): Curve => ({
  x: shares.map((_, index) => (index + 0.5) * LIGHTNESS_STEP),
  y: shares.map((share) => 100 * share),
});

const places = z.array(z.object({ across: z.number(), down: z.number(), sfr50CyPerMm: z.number() }));

/** Sharpness along the edges, and inside the picture over its whole width and height. */
export type FocusProfiles = Readonly<Record<"across" | "down" | "insideAcross" | "insideDown", Curve>>;

/**
 * Sharpness (SFR 50 %, cycles per mm) along the upper and lower edges from the print's own left to right, and along the left and right
 * edges from its top to bottom: means over sixths of the sheet, mm. Inside: the same of the tiles of the picture, means over all of its height
 * or width. Null where sharpness was not read piece by piece.
 * @param sheet as the reading saw it; sheetInFrame: the same corners, named from the print's own top left
 */
export function focusProfiles(
  readings: readonly Reading[],
  sheet: Quad,
  sheetInFrame: Quad,
  { widthMm, heightMm }: SizeMm,
): FocusProfiles | null {
  const detail = detailOf(readings, "focusFalloffPercent");
  const [edges, tiles] = [places.safeParse(detail?.places), places.safeParse(detail?.tiles)];
  if (!edges.success && !tiles.success) return null;
  const toFrame = homographyFromMm(1, 1, sheet);
  const toMm = inverse(homographyFromMm(widthMm, heightMm, sheetInFrame));
  const onSheet = (read: z.infer<typeof places>) =>
    read.map(({ across, down, sfr50CyPerMm }) => {
      const inFrame = project(toFrame, across, down);
      return { ...project(toMm, inFrame.x, inFrame.y), sfr50CyPerMm };
    });
  const [onEdges, inside] = [onSheet(edges.data ?? []), onSheet(tiles.data ?? [])];
  const isLevel = ({ x, y }: { x: number; y: number }) => Math.min(y, heightMm - y) < Math.min(x, widthMm - x);
  const along = (of: typeof inside, axis: "x" | "y") =>
    means(
      of.map((each) => ({ at: each[axis], value: each.sfr50CyPerMm })),
      axis === "x" ? widthMm : heightMm,
    );
  return {
    across: along(onEdges.filter(isLevel), "x"),
    down: along(
      onEdges.filter((each) => !isLevel(each)),
      "y",
    ),
    insideAcross: along(inside, "x"),
    insideDown: along(inside, "y"),
  };
}

function means(values: readonly { at: number; value: number }[], length: number): Curve {
  const parts = Array.from({ length: PLACES }, (_, part) =>
    values.filter(({ at }) => Math.min(PLACES - 1, Math.max(0, Math.floor((PLACES * at) / length))) === part),
  );
  const filled = parts.flatMap((part, index) => (part.length > 0 ? [{ index, part }] : []));
  return {
    x: filled.map(({ index }) => ((index + 0.5) * length) / PLACES),
    y: filled.map(({ part }) => part.reduce((sum, { value }) => sum + value, 0) / part.length),
  };
}

const found = z.array(z.object({ line: z.string(), fromFrameEdgeMm: z.number(), widthMm: z.number(), deltaL: z.number() })).min(1);

/** How strong each streak is, in L*, against how far from the frame's edge it lies; one curve for each way they run. */
export function streakProfiles(readings: readonly Reading[]): (Curve & { readonly runs: string })[] {
  const read = found.safeParse(detailOf(readings, "streakCount")?.streaks);
  if (!read.success) return [];
  return [...new Set(read.data.map(({ line }) => line))].map((runs) => {
    const streaks = read.data.filter(({ line }) => line === runs).sort((a, b) => a.fromFrameEdgeMm - b.fromFrameEdgeMm);
    const points = streaks.flatMap(({ fromFrameEdgeMm: at, widthMm, deltaL }) => [
      [at - widthMm / 2, 0],
      [at, Math.abs(deltaL)],
      [at + widthMm / 2, 0],
    ]) as [number, number][];
    return { runs, x: points.map(([x]) => x), y: points.map(([, y]) => y) };
  });
}

function detailOf(readings: readonly Reading[], name: Reading["name"]): Readonly<Record<string, unknown>> | undefined {
  const reading = readings.find((each) => each.name === name);
  return isPresent(reading) ? reading.detail : undefined;
}
