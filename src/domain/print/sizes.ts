import type { Print } from "./print.ts";

type Sizes = Pick<
  Print,
  "sheetWidthMm" | "sheetHeightMm" | "imageWidthMm" | "imageHeightMm" | "borderTopMm" | "borderRightMm" | "borderBottomMm" | "borderLeftMm"
>;

/** Rulers, curled edges and trimmed corners: parts that exceed the sheet by less are let pass (common practice, no source). */
const SLACK_MM = 2;

/** Measured sizes that are not whole, or cannot all be true, each with the field to look at. */
export function impossibleSizes(print: Sizes): { field: keyof Sizes; message: string }[] {
  const found: { field: keyof Sizes; message: string }[] = [];
  const across = [print.borderLeftMm, print.imageWidthMm, print.borderRightMm];
  const down = [print.borderTopMm, print.imageHeightMm, print.borderBottomMm];
  found.push(...missingSides(print));
  if (exceeds(across, print.sheetWidthMm)) {
    found.push({ field: "imageWidthMm", message: sentence("wide", across, print.sheetWidthMm) });
  }
  if (exceeds(down, print.sheetHeightMm)) {
    found.push({ field: "imageHeightMm", message: sentence("high", down, print.sheetHeightMm) });
  }
  return found;
}

/** A single side says no size: it would be ignored in silence, and a nominal one shown in its place. */
function missingSides(print: Sizes): { field: keyof Sizes; message: string }[] {
  const pairs = [
    ["sheet", "sheetWidthMm", "sheetHeightMm"],
    ["image", "imageWidthMm", "imageHeightMm"],
  ] as const;
  return pairs.flatMap(([what, width, height]) => {
    if ((print[width] === null) === (print[height] === null)) return [];
    const [field, side] = print[width] === null ? ([width, "width"] as const) : ([height, "height"] as const);
    return [{ field, message: `Measure the ${side} of the ${what} too, or empty both: one side alone says no size.` }];
  });
}

const sum = (parts: readonly (number | null)[]): number => parts.reduce<number>((total, part) => total + (part ?? 0), 0);

const exceeds = (parts: readonly (number | null)[], sheetMm: number | null): boolean => sheetMm !== null && sum(parts) > sheetMm + SLACK_MM;

function sentence(direction: "wide" | "high", parts: readonly (number | null)[], sheetMm: number | null): string {
  const said = parts.filter((part) => part !== null);
  const together = said.length > 1 ? `Image and borders together are ${round(sum(parts))} mm` : `The image is ${round(sum(parts))} mm`;
  return `${together} ${direction}, more than the sheet with ${sheetMm} mm. Measure again, and see that width and height are not swapped.`;
}

const round = (mm: number): number => Math.round(mm * 100) / 100;
