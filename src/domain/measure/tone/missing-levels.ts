import { codeAtShare, codeHistograms } from "../file/code-histograms.ts";
import { isLossyFile } from "../file/lossy-kinds.ts";
import { median } from "../numbers/robust.ts";
import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { pictureArea } from "./picture-area.ts";

/**
 * Levels that the picture leaves out or holds twice: the comb that a tone curve, a gain or a colour change leaves behind
 * when it was worked out in 8 bits. For each channel, of the levels between the darkest and the brightest 0.5 % of the
 * pixels, in percent: those with less than 5 % (empty) or more than 1.8 times (spiked) of the middle count of the levels
 * in use among their neighbours, three to each side. An empty level has used ones on both sides, a spiked one stands 1.5
 * times above each neighbour. The channel with most counts. 16 bits are read at the grain of 8: a comb in finer codes is
 * how sensors of 12 or 14 bits look in a file of 16.
 *
 * Needs: 32 levels with enough pixels. In a file of lossy compression, absent unless a comb shows: the compression fills
 * the gaps, even at quality 100 in colour.
 * Not comparable when: the picture was resized, turned by other than quarter turns or saved as JPEG after the edit, which
 * all hide it; so few missing levels prove nothing. Tones pressed together by a third or more show no spikes either.
 * Source: common practice, no source; the limits are own, found on photographs of 8 bits edited by known curves.
 */
export function missingLevels(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  const name = "missingLevelsPercent";
  const area = pictureArea(picture, outline);
  const combs = codeHistograms(picture, area.spans)
    .map((histogram) => combOf(atGrainOf8Bits(histogram)))
    .filter(({ levels }) => levels >= FEWEST_LEVELS);
  if (combs.length === 0) return [{ name, absent: "the picture has too few pixels or too few different levels to tell gaps from chance" }];
  const shares = combs.map(({ levels, empty, spiked }) => (100 * (empty + spiked)) / levels);
  const value = Math.max(...shares);
  const comb = combs[shares.indexOf(value)] as Comb;
  if (value < SIGN_FROM_PERCENT && isLossyFile(context))
    return [
      { name, absent: "the file's own compression fills gaps between levels, so that earlier edits cannot be told; a lossless file would" },
    ];
  return [
    {
      name,
      value,
      reliability: value < SIGN_FROM_PERCENT || area.of !== "picture" ? "fair" : "firm",
      note:
        value < SIGN_FROM_PERCENT
          ? "No comb, which proves nothing: resizing or saving as JPEG after an edit hides it."
          : "Levels are missing or doubled at regular places, as when tones or colours were changed in 8 bits after the capture.",
      detail: { area: area.of, emptyLevels: comb.empty, doubledLevels: comb.spiked, levelsJudged: comb.levels, channels: combs.length },
    },
  ];
}

/** Untouched photographs, saved as JPEG before, read up to 3. */
const SIGN_FROM_PERCENT = 4;
const FEWEST_LEVELS = 32;
const LEVELS = 256;
const ENDS_SHARE = 0.005;
const REACH = 3;
const EMPTY_BELOW = 0.05;
const SPIKED_ABOVE = 1.8;
const ABOVE_NEIGHBOUR = 1.5;
/** Below so many pixels a level's count may be low by chance: 1.8 times 50 lies five standard deviations above it. */
const FEWEST_PER_LEVEL = 50;

type Comb = { readonly levels: number; readonly empty: number; readonly spiked: number };

function combOf(histogram: Uint32Array): Comb {
  const first = codeAtShare(histogram, ENDS_SHARE) + 1;
  const last = codeAtShare(histogram, ENDS_SHARE, "above") - 1;
  let [levels, empty, spiked] = [0, 0, 0];
  for (let level = Math.max(REACH, first); level <= Math.min(last, histogram.length - 1 - REACH); level++) {
    const count = histogram[level] as number;
    const before = histogram.subarray(level - REACH, level);
    const after = histogram.subarray(level + 1, level + 1 + REACH);
    const usual = median([...before, count, ...after].filter((each) => each > 0));
    if (!(usual >= FEWEST_PER_LEVEL)) continue;
    levels++;
    const isBetween = (side: Uint32Array) => side.some((each) => each > EMPTY_BELOW * usual);
    if (count < EMPTY_BELOW * usual) {
      if (isBetween(before) && isBetween(after)) empty++;
    } else if (count > SPIKED_ABOVE * usual && count > ABOVE_NEIGHBOUR * Math.max(before[REACH - 1] as number, after[0] as number))
      spiked++;
  }
  return { levels, empty, spiked };
}

/** Equal widths of 256 codes: exact for 8 bits times 257 and for 8 bits shifted up. */
function atGrainOf8Bits(histogram: Uint32Array): Uint32Array {
  if (histogram.length === LEVELS) return histogram;
  const coarse = new Uint32Array(LEVELS);
  histogram.forEach((count, code) => {
    coarse[code >> 8] = (coarse[code >> 8] as number) + count;
  });
  return coarse;
}
