import type { Picture } from "../picture.ts";
import type { RowSpans } from "../planes/row-spans.ts";

/** For R, G, B: how many pixels have each code. */
export type CodeHistograms = readonly [Uint32Array, Uint32Array, Uint32Array];

/** Several measures count the same pixels: it is done once for each area. */
const counted = new WeakMap<RowSpans, { readonly picture: Picture; readonly histograms: CodeHistograms }>();

/** Reads every second row of the area: a group of 2 × 2 pixels cannot hide between them. */
export function codeHistograms(picture: Picture, spans: RowSpans): CodeHistograms {
  const known = counted.get(spans);
  if (known?.picture === picture) return known.histograms;
  const histograms = count(picture, spans);
  counted.set(spans, { picture, histograms });
  return histograms;
}

function count({ codes, widthPx, maxCode }: Picture, spans: RowSpans): CodeHistograms {
  const histograms: CodeHistograms = [new Uint32Array(maxCode + 1), new Uint32Array(maxCode + 1), new Uint32Array(maxCode + 1)];
  for (let y = 0; y < spans.length; y += 2) {
    const span = spans[y] as readonly number[];
    for (let k = 0; k < span.length; k += 2) {
      countCodes(codes, y * widthPx + (span[k] as number), y * widthPx + (span[k + 1] as number), histograms);
    }
  }
  return histograms;
}

/** Adds the pixels from the first to the last one, as they lie in the file, to what was counted. */
export function countCodes(codes: Picture["codes"], first: number, last: number, [red, green, blue]: CodeHistograms): void {
  for (let at = 3 * first; at <= 3 * last; at += 3) {
    const r = codes[at] as number;
    const g = codes[at + 1] as number;
    const b = codes[at + 2] as number;
    red[r] = (red[r] as number) + 1;
    green[g] = (green[g] as number) + 1;
    blue[b] = (blue[b] as number) + 1;
  }
}

/** The code below which (from above: over which) no more than `share` of the pixels lie; 0 of an empty histogram. */
export function codeAtShare(histogram: Uint32Array, share: number, from: "below" | "above" = "below"): number {
  const total = histogram.reduce((sum, count) => sum + count, 0);
  const step = from === "below" ? 1 : -1;
  let code = from === "below" ? 0 : histogram.length - 1;
  let seen = histogram[code] as number;
  while (seen <= share * total && code + step >= 0 && code + step < histogram.length) {
    code += step;
    seen += histogram[code] as number;
  }
  return code;
}
