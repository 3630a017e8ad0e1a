import { asSentence } from "../../sentence.ts";
import { borderOf } from "../border/border.ts";
import { isLossyFile } from "../file/lossy-kinds.ts";
import { type StuckCodes, stuckCodes } from "../file/stuck-codes.ts";
import { type MarkedArea, markedArea } from "../marked-area.ts";
import type { Picture } from "../picture.ts";
import { pixelsIn, type RowSpans, spansInside, spansWithout } from "../planes/row-spans.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { pictureArea } from "./picture-area.ts";

/**
 * Share of the picture's area, in percent, where at least one channel is stuck at its upper end (highlights) or lower
 * end (shadows), read on the codes of the file. A channel counts where at least 2 × 2 neighbouring pixels are stuck,
 * so that single hot or dark pixels do not. The end is the last code of the scale, or the last code in use when far
 * more pixels have it than its neighbours (see stuck-codes.ts). The border is counted apart, in the detail, and not marked: marked is
 * what the number counts.
 *
 * Needs: nothing; without an outline the whole frame is read, ground included.
 * Not comparable when: one reading is of the picture and the other of the whole frame.
 * Source: common practice, no source.
 */
export function clipping(picture: Picture, outline: Outline | null, context: MeasureContext): Reading[] {
  const { widthPx, heightPx } = picture;
  const area = pictureArea(picture, outline);
  const isLossy = isLossyFile(context);
  const codes = area.pixels < FEWEST_PIXELS ? null : stuckCodes(picture, area.spans, isLossy);
  if (!codes) {
    const absent = "too few pixels to tell clipped areas from single pixels";
    return [
      { name: "clippedHighlightsPercent", absent },
      { name: "clippedShadowsPercent", absent },
    ];
  }
  const counts = countStuck(picture, area.spans, codes);
  const border = outline && borderOf(outline, context);
  const borderSpans =
    border &&
    spansWithout(
      spansInside(border.sheet, border.guardPx, widthPx, heightPx),
      spansInside(border.image, -border.guardPx, widthPx, heightPx),
    );
  const borderPixels = borderSpans ? pixelsIn(borderSpans) : 0;
  const borderCounts = borderSpans && borderPixels > 0 ? countStuck(picture, borderSpans, stuckCodes(picture, borderSpans, isLossy)) : null;
  return (["highlights", "shadows"] as const).map((end): Reading => {
    const ends = codes[end];
    const scaleEnd = end === "highlights" ? picture.maxCode : 0;
    const early = ends.some((code) => code !== null && Math.abs(scaleEnd - code) > BEFORE_END_SHARE * picture.maxCode);
    const notes = [
      ...(area.note ? [area.note] : []),
      ...(early && counts[end].any > 0
        ? ["the values are stuck before the end of the scale, as when tones were changed after the capture"]
        : []),
    ];
    return {
      name: end === "highlights" ? "clippedHighlightsPercent" : "clippedShadowsPercent",
      value: (100 * counts[end].any) / area.pixels,
      reliability: area.of === "picture" ? "firm" : "fair",
      ...(notes.length > 0 && { note: asSentence(notes.join("; ")) }),
      detail: {
        area: area.of,
        channels: inPercent(counts[end].channels, area.pixels),
        stuckFrom: { red: ends[0], green: ends[1], blue: ends[2] },
        border: borderCounts && {
          all: (100 * borderCounts[end].any) / borderPixels,
          ...inPercent(borderCounts[end].channels, borderPixels),
        },
      },
      area: [counts[end].area],
    };
  });
}

const FEWEST_PIXELS = 16;
/** Nearer to the end than this (two codes of 255) is what lossy compression makes of the end itself. */
const BEFORE_END_SHARE = 0.01;

/** Cells along the longer side of the frame that what is stuck is drawn on; a cell is in where any of its pixels is. */
const CELLS_ALONG = 1200;

type End = { any: number; channels: [number, number, number]; area: MarkedArea };

/** One row while it is looked at: which ends each pixel is stuck at, and which of them it shares with a group. */
type Row = { readonly flags: Uint8Array; readonly groups: Uint8Array; any: number };

/**
 * Pixels of the area in stuck groups of 2 × 2 or more. Every such group has a row of even number in it, so that the others are
 * looked at only beside one where something is stuck.
 */
function countStuck(picture: Picture, spans: RowSpans, stuck: StuckCodes): { highlights: End; shadows: End } {
  const { widthPx, heightPx } = picture;
  const perCombination = new Float64Array(64);
  const cellPx = Math.max(1, Math.ceil(Math.max(widthPx, heightPx) / CELLS_ALONG));
  const [columns, rows] = [Math.ceil(widthPx / cellPx), Math.ceil(heightPx / cellPx)];
  const cells = new Uint8Array(columns * rows);
  if ([...stuck.highlights, ...stuck.shadows].some((code) => code !== null)) {
    const flags = [0, 1, 2].map((channel) =>
      flagsOf(picture.maxCode, channel, stuck.highlights[channel] ?? null, stuck.shadows[channel] ?? null),
    ) as [Uint8Array, Uint8Array, Uint8Array];
    const empty = (): Row => ({ flags: new Uint8Array(widthPx), groups: new Uint8Array(widthPx), any: 0 });
    let [above, below] = [empty(), empty()];
    const middle = empty();
    const tally = ({ any, groups }: Row, y: number) => {
      if (any === 0) return;
      const firstCell = Math.floor(y / cellPx) * columns;
      for (let x = 0; x < widthPx; x++) {
        const combination = groups[x] as number;
        if (combination === 0) continue;
        perCombination[combination] = (perCombination[combination] as number) + 1;
        const cell = firstCell + Math.floor(x / cellPx);
        cells[cell] = (cells[cell] as number) | combination;
      }
      groups.fill(0);
    };
    look(picture, spans, flags, 0, above);
    for (let y = 1; y <= spans.length; y += 2) {
      look(picture, spans, flags, y + 1, below);
      if (above.any !== 0 || below.any !== 0) look(picture, spans, flags, y, middle);
      else middle.any = 0;
      markGroups(above, middle);
      tally(above, y - 1);
      markGroups(middle, below);
      tally(middle, y);
      [above, below] = [below, above];
    }
  }
  const endOf = (shift: number): End => {
    const sums = sumOf(perCombination, shift);
    if (sums.any === 0) return { ...sums, area: { of: "frame", loops: [] } };
    const mask = new Uint8Array(cells.length);
    for (let cell = 0; cell < mask.length; cell++) if ((((cells[cell] as number) >> shift) & 7) !== 0) mask[cell] = 1;
    return { ...sums, area: markedArea("frame", mask, columns, rows, { columns: widthPx / cellPx, rows: picture.heightPx / cellPx }) };
  };
  return { highlights: endOf(0), shadows: endOf(3) };
}

function look(
  { codes, widthPx }: Picture,
  spans: RowSpans,
  flags: readonly [Uint8Array, Uint8Array, Uint8Array],
  y: number,
  row: Row,
): void {
  const [red, green, blue] = flags;
  const span = spans[y] ?? [];
  let any = 0;
  row.flags.fill(0);
  for (let k = 0; k < span.length; k += 2) {
    const to = span[k + 1] as number;
    for (let x = span[k] as number, at = (y * widthPx + x) * 3; x <= to; x++, at += 3) {
      const flag =
        (red[codes[at] as number] as number) | (green[codes[at + 1] as number] as number) | (blue[codes[at + 2] as number] as number);
      if (flag === 0) continue;
      row.flags[x] = flag;
      any |= flag;
    }
  }
  row.any = any;
}

/** Bit `channel` for codes stuck at the upper end, bit `3 + channel` at the lower. */
function flagsOf(maxCode: number, channel: number, highest: number | null, lowest: number | null): Uint8Array {
  const flags = new Uint8Array(maxCode + 1);
  if (highest !== null) flags.fill(1 << channel, highest);
  if (lowest !== null) flags.fill(8 << channel, 0, lowest + 1);
  return flags;
}

function markGroups(above: Row, below: Row): void {
  if ((above.any & below.any) === 0) return;
  for (let x = 1; x < above.flags.length; x++) {
    const group = (above.flags[x - 1] as number) & (above.flags[x] as number) & (below.flags[x - 1] as number) & (below.flags[x] as number);
    if (group === 0) continue;
    above.groups[x - 1] = (above.groups[x - 1] as number) | group;
    above.groups[x] = (above.groups[x] as number) | group;
    below.groups[x - 1] = (below.groups[x - 1] as number) | group;
    below.groups[x] = (below.groups[x] as number) | group;
  }
}

function sumOf(perCombination: Float64Array, shift: number): Omit<End, "area"> {
  const end: Omit<End, "area"> = { any: 0, channels: [0, 0, 0] };
  perCombination.forEach((count, combination) => {
    const bits = (combination >> shift) & 7;
    if (bits !== 0) end.any += count;
    for (let channel = 0; channel < 3; channel++)
      if (bits & (1 << channel)) end.channels[channel] = (end.channels[channel] as number) + count;
  });
  return end;
}

const inPercent = ([red, green, blue]: readonly [number, number, number], of: number) => ({
  red: (100 * red) / of,
  green: (100 * green) / of,
  blue: (100 * blue) / of,
});
