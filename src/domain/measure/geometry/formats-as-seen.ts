import { FORMATS, formatsFitting } from "../../print/format.ts";
import type { MeasureContext, Outline } from "../reading.ts";
import { disagreementOf, leastMisfit } from "../size-as-seen.ts";
import { claimedSize } from "./claimed-size.ts";

/** How well a format fits: by its size where the file says its scale, else by its proportions alone. */
export type FormatAsSeen =
  | { readonly format: string; readonly differenceMm: number }
  | { readonly format: string; readonly proportionsOffPercent: number };

/** More would be a list of formats, not a hint. */
const MOST = 6;
/** Sheets are cut to about a millimetre in a hundred. Own. */
const SAME_PROPORTIONS = 0.012;
/** How differently the picture may fill its sheet. Own; published borders differ by about as much. */
const SAME_BORDERS = 0.03;

/** Formats that a whole sheet of unknown size may be of, the nearest first. Hints only: size never decides alone. */
export function formatsAsSeen({ sheet, image }: Outline, context: MeasureContext): FormatAsSeen[] {
  const claimed = claimedSize(sheet, context);
  if (claimed) {
    const { widthMm, heightMm } = claimed;
    const turned = [...formatsFitting(widthMm, heightMm), ...formatsFitting(heightMm, widthMm)];
    const nearest = new Map<string, number>();
    for (const { format, distanceMm } of turned)
      nearest.set(format.name, Math.min(distanceMm, nearest.get(format.name) ?? Number.POSITIVE_INFINITY));
    return [...nearest]
      .map(([format, differenceMm]) => ({ format, differenceMm }))
      .sort((p, q) => p.differenceMm - q.differenceMm)
      .slice(0, MOST);
  }
  return FORMATS.filter(({ matchable }) => matchable)
    .map((format) => ({ format, misfit: leastMisfit(sheet, format.sheetWidthMm, format.sheetHeightMm) }))
    .filter(({ format, misfit }) => misfit < SAME_PROPORTIONS && (!image || disagreementOf(sheet, image, format) < SAME_BORDERS))
    .sort((p, q) => p.misfit - q.misfit)
    .slice(0, MOST)
    .map(({ format, misfit }) => ({ format: format.name, proportionsOffPercent: 100 * misfit }));
}

/** What a keeper is told of them, where the size of the print is not known. */
export function formatsInWords(formats: readonly FormatAsSeen[]): string {
  if (formats.length === 0) return "Its size is not known, and no format that is known here fits what is seen: measure it with a ruler.";
  const names = formats.map(({ format }) => format).join("; ");
  const isBySize = formats.some((each) => "differenceMm" in each);
  return `Its size is not known. Formats that fit ${isBySize ? "by the scale that the file claims" : "by proportions alone"}: ${names}. A ruler decides.`;
}
