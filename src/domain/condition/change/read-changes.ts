import type { ChangeName } from "./change-names.ts";
import { colourDrift } from "./colour-drift.ts";
import { borderGain, densityRange, lossFromOne, whitesOf } from "./density.ts";
import { BORDER, type LaidSheets, PICTURE } from "./lay-sheets.ts";
import { type Look, tilesOf, WHOLE } from "./tiles.ts";

/** Broad enough that noise and small structures do not count, for colours; small enough to be of one tone, for densities. */
export const TILE_MM = 4;
export const PLACE_MM = 0.5;

/** Every number that two laid captures give; left out where they give none. */
export function readChanges(sheets: LaidSheets, look: Look = WHOLE): Partial<Record<ChangeName, number>> {
  const read: Partial<Record<ChangeName, number>> = {};
  const border = tilesOf(sheets, BORDER, TILE_MM, look);
  const ofBorder = colourDrift(border);
  if (ofBorder) {
    read.borderDeltaL = ofBorder.lightness;
    read.borderDeltaC = ofBorder.chroma;
    read.borderDeltaH = ofBorder.hue;
    read.borderDeltaB = ofBorder.b;
    read.borderDeltaE2000 = ofBorder.ciede2000;
  }
  const ofPicture = colourDrift(tilesOf(sheets, PICTURE, TILE_MM, look));
  if (ofPicture) {
    read.pictureDeltaL = ofPicture.lightness;
    read.pictureDeltaC = ofPicture.chroma;
    read.pictureDeltaH = ofPicture.hue;
    read.pictureDeltaE2000 = ofPicture.ciede2000;
  }
  const places = tilesOf(sheets, PICTURE, PLACE_MM, look);
  const whites = whitesOf(border);
  if (whites) {
    const gains = borderGain(whites);
    [read.borderRedDensityGain, read.borderGreenDensityGain, read.borderBlueDensityGain] = gains;
    read.borderBalanceShift = spanOf(gains);
    const losses = ([0, 1, 2] as const).map((channel) => lossFromOne(places, whites, channel));
    const names = ["redDensityLoss", "greenDensityLoss", "blueDensityLoss"] as const;
    for (const [channel, name] of names.entries()) if (losses[channel] !== null) read[name] = losses[channel] as number;
    const known = losses.filter((loss) => loss !== null);
    if (known.length === 3) read.densityBalanceShift = spanOf(known);
  }
  const before = densityRange(places, "older");
  const after = densityRange(places, "newer");
  if (before && after) read.contrastChangePercent = 100 * (after / before - 1);
  return read;
}

const spanOf = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
