import { type Homography, project } from "../measure/homography.ts";
import { luminanceAt, type Picture } from "../measure/picture.ts";
import { type ChannelShift, channelShift } from "../measure/sharpness/channel-shift.ts";
import type { EdgeStrip } from "../measure/sharpness/edge-places.ts";
import { type EdgeRefusal, type EdgeResponse, slantedEdge } from "../measure/sharpness/slanted-edge.ts";
import type { FramePlace } from "./corner-figures.ts";
import type { Placed } from "./layout.ts";

export type EdgeRead = {
  readonly id: string;
  /** the direction in which fineness is read: across for an upright edge */
  readonly direction: "across" | "down";
  readonly place: FramePlace;
  readonly response: EdgeResponse | EdgeRefusal;
  readonly shift: ChannelShift | string;
};

/** Part of the box that is read, so that its rim does not show what lies beside it. */
const INSIDE = 0.9;
const LONGEST_PX = 600;

/** The response of a slanted edge (ISO 12233, e-SFR) and how far its colours lie apart; null where the box is not wholly in the frame. */
export function readEdge(picture: Picture, fromMm: Homography, edge: Placed): EdgeRead | null {
  const box = uprightBox(fromMm, edge);
  if (box.left < 0 || box.top < 0 || box.right >= picture.widthPx || box.bottom >= picture.heightPx) return null;
  const isUpright = changesAcross(picture, box);
  const strips = [0, 1, 2, "luminance"].map((channel) => stripOf(picture, box, isUpright, channel as 0 | 1 | 2 | "luminance"));
  const [red, green, blue, luminance] = strips as [EdgeStrip, EdgeStrip, EdgeStrip, EdgeStrip];
  return {
    id: edge.id,
    direction: isUpright ? "across" : "down",
    place: {
      across: (box.left + box.right + 1) / picture.widthPx - 1,
      down: (box.top + box.bottom + 1) / picture.heightPx - 1,
    },
    response: slantedEdge(luminance),
    shift: channelShift([red, green, blue]),
  };
}

type PxBox = { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number };

/** The largest upright box of pixels about the middle of the four corners that lies inside them, for a frame that is nearly square to the target. */
function uprightBox(fromMm: Homography, { leftMm, topMm, widthMm, heightMm }: Placed): PxBox {
  const [mx, my] = [(widthMm * (1 - INSIDE)) / 2, (heightMm * (1 - INSIDE)) / 2];
  const corners = [
    project(fromMm, leftMm + mx, topMm + my),
    project(fromMm, leftMm + widthMm - mx, topMm + my),
    project(fromMm, leftMm + widthMm - mx, topMm + heightMm - my),
    project(fromMm, leftMm + mx, topMm + heightMm - my),
  ];
  const xs = corners.map(({ x }) => x).toSorted((a, b) => a - b);
  const ys = corners.map(({ y }) => y).toSorted((a, b) => a - b);
  // of four corners the two inner ones bound the box on either side
  const [left, right] = [Math.ceil(xs[1] ?? 0), Math.floor(xs[2] ?? 0)];
  const [top, bottom] = [Math.ceil(ys[1] ?? 0), Math.floor(ys[2] ?? 0)];
  const [cutX, cutY] = [Math.max(0, right - left - LONGEST_PX) / 2, Math.max(0, bottom - top - LONGEST_PX) / 2];
  return { left: left + Math.floor(cutX), right: right - Math.floor(cutX), top: top + Math.floor(cutY), bottom: bottom - Math.floor(cutY) };
}

/** True where light changes more from left to right than from top to bottom. */
function changesAcross(picture: Picture, { left, top, right, bottom }: PxBox): boolean {
  let [across, down] = [0, 0];
  for (let step = 0; step < 8; step++) {
    const y = Math.round(top + ((step + 0.5) / 8) * (bottom - top));
    const x = Math.round(left + ((step + 0.5) / 8) * (right - left));
    across += luminanceAt(picture, right, y) - luminanceAt(picture, left, y);
    down += luminanceAt(picture, x, bottom) - luminanceAt(picture, x, top);
  }
  return Math.abs(across) >= Math.abs(down);
}

/** Rows run along the edge: a level edge is read with rows and columns changed. */
function stripOf(picture: Picture, { left, top, right, bottom }: PxBox, isUpright: boolean, channel: 0 | 1 | 2 | "luminance"): EdgeStrip {
  const [rows, widthPx] = isUpright ? [bottom - top + 1, right - left + 1] : [right - left + 1, bottom - top + 1];
  const data = new Float32Array(rows * widthPx);
  const at = (x: number, y: number): number =>
    channel === "luminance"
      ? luminanceAt(picture, x, y)
      : (picture.linearOf[channel][picture.codes[(y * picture.widthPx + x) * 3 + channel] ?? 0] ?? 0);
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < widthPx; column++)
      data[row * widthPx + column] = isUpright ? at(left + column, top + row) : at(left + row, top + column);
  return { rows, widthPx, data, startPx: new Int32Array(rows) };
}
