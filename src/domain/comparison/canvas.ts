import type { SizeMm } from "../measure/size-as-seen.ts";

/** The rectangle of the print's own mm grid that captures are laid on for looking: the sheet with a little of what lies round it. */
export type Canvas = {
  readonly widthMm: number;
  readonly heightMm: number;
  /** where the sheet's own top left lies on it */
  readonly leftMm: number;
  readonly topMm: number;
};

/** The sheet's edge itself is looked at too. */
const MARGIN_MM = 2;
/** With even samplings to the mm, both sides are whole numbers of pixels that can be halved four times without a rest. */
const UNIT_MM = 8;
const STEP_PX_PER_MM = 2;
/** So much coarser than the capture does not count as coarser. */
const SAME_SAMPLING = 0.98;
/** Bounds memory and disk: 3 bytes each while a capture is laid. */
export const MOST_CANVAS_PX = 80e6;

export function canvasFor({ widthMm, heightMm }: SizeMm): Canvas {
  const whole = (mm: number) => UNIT_MM * Math.ceil((mm + 2 * MARGIN_MM) / UNIT_MM);
  const [width, height] = [whole(widthMm), whole(heightMm)];
  return { widthMm: width, heightMm: height, leftMm: (width - widthMm) / 2, topMm: (height - heightMm) / 2 };
}

/** Pixels to the mm that a capture is laid at: not coarser than its own, unless that is more than can be held. */
export function laidPxPerMm(ownPxPerMm: number, { widthMm, heightMm }: Canvas): number {
  const wanted = Math.ceil((SAME_SAMPLING * ownPxPerMm) / STEP_PX_PER_MM);
  const most = Math.floor(Math.sqrt(MOST_CANVAS_PX / (widthMm * heightMm)) / STEP_PX_PER_MM);
  return STEP_PX_PER_MM * Math.max(1, Math.min(wanted, most));
}
