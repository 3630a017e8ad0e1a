import { smoothNoise } from "../random.ts";

/** Places are mm on the plane, from its middle. */
export type LightField = (xMm: number, yMm: number) => number;

/** A lamp at a height: the inverse square and the cosine of the slant (photometry, any textbook). */
export function lamp(xMm: number, yMm: number, heightMm: number): LightField {
  const middle = (xMm ** 2 + yMm ** 2 + heightMm ** 2) ** 1.5;
  return (x, y) => {
    const square = (x - xMm) * (x - xMm) + (y - yMm) * (y - yMm) + heightMm * heightMm;
    return middle / (square * Math.sqrt(square));
  };
}

/** Daylight from one side: falls evenly from there, `fallPer100Mm` in parts of the middle. */
export function daylight(fromDegrees: number, fallPer100Mm: number): LightField {
  const towards = (fromDegrees * Math.PI) / 180;
  return (x, y) => Math.max(0.05, 1 + ((x * Math.cos(towards) + y * Math.sin(towards)) / 100) * fallPer100Mm);
}

export const together =
  (one: LightField, other: LightField): LightField =>
  (x, y) =>
    (one(x, y) + other(x, y)) / 2;

/** Light with the shadow of a hand or phone over part of it; soft at its edge. */
export function shaded(
  light: LightField,
  shadow: { xMm: number; yMm: number; radiusMm: number; softMm: number; depth: number },
): LightField {
  return (x, y) => {
    const outside = (Math.hypot(x - shadow.xMm, (y - shadow.yMm) * 0.7) - shadow.radiusMm) / shadow.softMm;
    return light(x, y) * (1 - shadow.depth / (1 + Math.exp(Math.max(-30, Math.min(30, 4 * outside)))));
  };
}

export type MirroredWindow = {
  /** where the mirror image of its middle falls */
  xMm: number;
  yMm: number;
  widthMm: number;
  heightMm: number;
  turnDegrees: number;
  /** how far the gloss scatters it */
  softMm: number;
  /** added at full gloss, 1 = white */
  strength: number;
  /** a bar across and one down */
  bars: boolean;
  /** how far the curl of the sheet bends it, mm */
  wavyMm: number;
};

/**
 * The window's mirror image as the lens sees it: on a flat glossy sheet a straight-edged figure,
 * since a plane mirror maps planes by a perspective; bent by curl, softened by the surface.
 */
export function mirroredWindow(w: MirroredWindow): LightField {
  const turn = (w.turnDegrees * Math.PI) / 180;
  const reachMm = Math.hypot(w.widthMm, w.heightMm) / 2 + 2 * w.wavyMm + 8 * w.softMm;
  return (x, y) => {
    if (Math.abs(x - w.xMm) > reachMm || Math.abs(y - w.yMm) > reachMm) return 0;
    const bentX = x + w.wavyMm * smoothNoise(x / 38, y / 38, 31) - w.xMm;
    const bentY = y + w.wavyMm * smoothNoise(x / 34, y / 34, 32) - w.yMm;
    const u = bentX * Math.cos(turn) + bentY * Math.sin(turn);
    const v = -bentX * Math.sin(turn) + bentY * Math.cos(turn);
    let seen = step(w.widthMm / 2 - Math.abs(u), w.softMm) * step(w.heightMm / 2 - Math.abs(v), w.softMm);
    if (w.bars)
      seen *= (1 - 0.9 * step(w.widthMm * 0.035 - Math.abs(u), w.softMm)) * (1 - 0.9 * step(w.heightMm * 0.03 - Math.abs(v), w.softMm));
    return w.strength * seen;
  };
}

/** A bulb: a bright core in a wide weak halo. */
export function mirroredLamp(lamp: { xMm: number; yMm: number; radiusMm: number; strength: number }): LightField {
  return (x, y) => {
    const away = ((x - lamp.xMm) ** 2 + ((y - lamp.yMm) * 0.85) ** 2) / lamp.radiusMm ** 2;
    return away > 60 ? 0 : lamp.strength * (Math.exp(-away) + 0.18 * Math.exp(-away / 6));
  };
}

const step = (insideMm: number, softMm: number): number => 1 / (1 + Math.exp(Math.max(-30, Math.min(30, (-2.4 * insideMm) / softMm))));
