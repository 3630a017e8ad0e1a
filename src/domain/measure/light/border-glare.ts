import { markedArea } from "../marked-area.ts";
import type { Picture } from "../picture.ts";
import { boxesOf } from "../planes/mask.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { sizeAsSeen } from "../size-as-seen.ts";
import { type BorderShine, borderShine } from "./border-shine.ts";

/**
 * Share of the plain border that shines, in percent: patches whose luminance lies more than 3 % (and more than four
 * times their own scatter) above the smooth light fitted to the whole border, specks left out; where a step parts the border in two levels
 * of light (two-levels.ts), above the darker one, if the picture beside it bears that out (shine-or-shadow.ts). Certain where the
 * border is plain; along a side where no border was told apart what is brighter than paper counts too
 * (hidden-sides.ts). But a broad, smooth shine passes for uneven light, so the share is "at least".
 *
 * Needs: a border of 2 mm on one side or more. Absent when most of the border is clipped, and where the picture does not tell whether the brighter
 * level shines or the darker lies in shadow.
 * Source: common practice, no source.
 */
export function borderGlare(
  picture: Picture,
  outline: Outline | null,
  context: MeasureContext,
  shine: BorderShine | string = borderShine(picture, outline, context),
): Reading[] {
  const name = "borderGlarePercent";
  if (!outline) return [{ name, absent: "the print was not found in the frame" }];
  if (typeof shine === "string") return [{ name, absent: shine }];
  const { border, hidden, patches, shining, plain, strongest } = shine;
  const count = shining.reduce((sum, value) => sum + value, 0);
  return [
    {
      name,
      value: (100 * count) / patches.cell.length,
      reliability: border.sides.length >= 3 && hidden.length === 0 && plain.length >= LEAST_PLAIN * patches.cell.length ? "firm" : "fair",
      bound: "lower",
      ...(border.sides.length < 4 && { note: whereRead(border.sides.length, hidden.length) }),
      detail: {
        of: "sheet",
        places: boxesOf(shining, patches.columns, patches.rows, sizeAsSeen(outline.sheet, outline.image, context).sheet).slice(
          0,
          MOST_PLACES,
        ),
        strongestPercent: 100 * (Math.exp(strongest) - 1),
      },
      area: [markedArea("sheet", shining, patches.columns, patches.rows)],
    },
  ];
}

function whereRead(sides: number, hidden: number): string {
  const beside = hidden > 0 ? ", and along another by what is brighter there than its paper" : "";
  return `Read on ${sides} of 4 sides, where the border is wide enough${beside}.`;
}

const MOST_PLACES = 12;
/** Share of the border by which its light is told; with less the reading is fair. Own. */
const LEAST_PLAIN = 0.5;
