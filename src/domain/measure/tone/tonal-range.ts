import { asSentence } from "../../sentence.ts";
import { lightnessOf } from "../colour/lab.ts";
import { lightShares } from "../colour/light-shares.ts";
import { codeAtShare, codeHistograms } from "../file/code-histograms.ts";
import { ranked } from "../numbers/robust.ts";
import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { type PictureArea, pictureArea } from "./picture-area.ts";

/**
 * Range of tones of the picture: L* that all but 0.5 % of its pixels lie below, less L* that all but 0.5 % lie above
 * (luminance through the profile, D50). Each pixel counts as the middle one of itself and its eight neighbours: of single pixels noise would
 * widen the range at both ends (0.3 L* of it by 0.6 of a range of 5, so by 0.2). It is a fact of print and capture together: a faded print has a short range
 * however well it was captured, and veiling light shortens it.
 *
 * The detail has the headroom of each channel, in percent of the scale of codes: how far the code that all but 0.01 % of
 * the pixels lie below is from the upper end, and likewise the foot room at the lower end.
 *
 * Needs: nothing; without an outline the whole frame is read, ground included.
 * Not comparable when: one reading is of the picture and the other of the whole frame.
 * Source: common practice, no source; L* of CIE 15.
 */
export function tonalRange(picture: Picture, outline: Outline | null, _context: MeasureContext): Reading[] {
  const name = "tonalRangeDeltaL";
  const area = pictureArea(picture, outline);
  const luminances = luminanceSamples(picture, area);
  if (luminances.length < FEWEST_SAMPLES) return [{ name, absent: "too few pixels to tell the range of tones from single pixels" }];
  const atShare = (share: number) => lightnessOf(ranked(luminances, Math.round(share * (luminances.length - 1))));
  const [darkest, brightest] = [atShare(ENDS_SHARE), atShare(1 - ENDS_SHARE)];
  const histograms = codeHistograms(picture, area.spans);
  const room = (from: "above" | "below") => {
    const [red, green, blue] = histograms.map((histogram) => {
      const code = codeAtShare(histogram, STRAY_SHARE, from);
      return (100 * (from === "above" ? picture.maxCode - code : code)) / picture.maxCode;
    });
    return { redPercent: red, greenPercent: green, bluePercent: blue };
  };
  return [
    {
      name,
      value: brightest - darkest,
      reliability: area.of === "picture" ? "firm" : "fair",
      ...(area.note && { note: asSentence(area.note) }),
      detail: { area: area.of, darkestLightness: darkest, brightestLightness: brightest, headroom: room("above"), footRoom: room("below") },
    },
  ];
}

const ENDS_SHARE = 0.005;
const STRAY_SHARE = 1e-4;
const FEWEST_SAMPLES = 400;
/** Samples that the ends are found on: half a percent of them are a thousand. */
const MOST_SAMPLES = 200_000;

/** The median luminance of 3 × 3 px round places spread evenly over the area; at the frame's edge the last pixel is repeated. */
function luminanceSamples(picture: Picture, { spans, pixels }: PictureArea): Float64Array {
  const { codes, widthPx, heightPx } = picture;
  const [red, green, blue] = lightShares(picture);
  const step = Math.max(1, Math.ceil(Math.sqrt(pixels / MOST_SAMPLES)));
  const values = new Float64Array(Math.ceil(spans.length / step) * Math.ceil(widthPx / step));
  const around = new Float64Array(9);
  const rows = new Int32Array(3);
  let count = 0;
  for (let y = step >> 1; y < spans.length; y += step) {
    const span = spans[y] as readonly number[];
    for (let j = 0; j < 3; j++) rows[j] = 3 * widthPx * Math.min(heightPx - 1, Math.max(0, y + j - 1));
    for (let k = 0; k < span.length; k += 2) {
      const last = span[k + 1] as number;
      for (let x = ((span[k] as number) + (step >> 1)) | 0; x <= last; x += step) {
        const before = 3 * Math.max(0, x - 1);
        const after = 3 * Math.min(widthPx - 1, x + 1);
        for (let j = 0, into = 0; j < 3; j++) {
          const row = rows[j] as number;
          for (let i = 0; i < 3; i++, into++) {
            const at = row + (i === 0 ? before : i === 1 ? 3 * x : after);
            around[into] =
              (red[codes[at] as number] as number) + (green[codes[at + 1] as number] as number) + (blue[codes[at + 2] as number] as number);
          }
        }
        values[count++] = medianOfNine(around);
      }
    }
  }
  return values.subarray(0, count);
}

/** Sorts by insertion as far as it needs: the five lowest say which is the middle. */
function medianOfNine(values: Float64Array): number {
  for (let k = 1; k < 9; k++) {
    const value = values[k] as number;
    let into = Math.min(k, 5);
    if (k >= 5 && (values[4] as number) <= value) continue;
    while (into > 0 && (values[into - 1] as number) > value) values[into] = values[--into] as number;
    values[into] = value;
  }
  return values[4] as number;
}
