import { SIDES, type SideLines } from "../lines.ts";

/** For each row of a picture the columns that belong to an area: from, to, from, to …, both included. */
export type RowSpans = readonly (readonly number[])[];

/** Every pixel of the frame. */
export const wholeFrame = (widthPx: number, heightPx: number): RowSpans => Array.from({ length: heightPx }, () => [0, widthPx - 1]);

/** Pixels at least `insetPx` inside four lines (outside them by so much when negative). */
export function spansInside(lines: SideLines, insetPx: number, widthPx: number, heightPx: number): RowSpans {
  const spans: number[][] = [];
  for (let y = 0; y < heightPx; y++) spans.push(spanInside(lines, insetPx, widthPx, y));
  return spans;
}

function spanInside(lines: SideLines, insetPx: number, widthPx: number, y: number): number[] {
  let from = 0;
  let to = widthPx - 1;
  for (const side of SIDES) {
    const { nx, ny, d } = lines[side];
    const rest = insetPx - ny * y - d;
    if (Math.abs(nx) < 1e-12) {
      if (rest > 0) return [];
    } else if (nx > 0) from = Math.max(from, Math.ceil(rest / nx));
    else to = Math.min(to, Math.floor(rest / nx));
  }
  return to >= from ? [from, to] : [];
}

/** What is left of single spans when other single spans are cut out of them. */
export function spansWithout(spans: RowSpans, cut: RowSpans): RowSpans {
  const left: (readonly number[])[] = [];
  for (let y = 0; y < spans.length; y++) left.push(spanWithout(spans[y] as readonly number[], cut[y] ?? []));
  return left;
}

function spanWithout(span: readonly number[], cut: readonly number[]): readonly number[] {
  const [from, to] = span;
  const [cutFrom, cutTo] = cut;
  if (from === undefined || to === undefined || cutFrom === undefined || cutTo === undefined || cutTo < from || cutFrom > to) return span;
  return [...(cutFrom > from ? [from, cutFrom - 1] : []), ...(cutTo < to ? [cutTo + 1, to] : [])];
}

export const pixelsIn = (spans: RowSpans): number =>
  spans.reduce((sum, span) => {
    let row = 0;
    for (let k = 0; k < span.length; k += 2) row += (span[k + 1] as number) - (span[k] as number) + 1;
    return sum + row;
  }, 0);
