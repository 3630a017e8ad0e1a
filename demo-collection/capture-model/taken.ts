import type { PrintTruth, PxPoint } from "../manifest.ts";
import { type Projection, project } from "./projection.ts";
import type { Exposed, Placed } from "./scene.ts";
import type { Codes } from "./sensor.ts";

/** A capture before it becomes a file, with what it was made from. */
export type Taken = {
  readonly codes: Codes;
  readonly exposed: Exposed;
  readonly projection: Projection;
  readonly placed: readonly Placed[];
  readonly sigmaAt: (x: number, y: number) => number;
};

/** What is truly so of each sheet in a capture: worked out from the model, never read from the pixels' content. */
export function truthsOf(taken: Taken): PrintTruth[] {
  return taken.placed.map((placed, index) => {
    const sheetMm = { leftMm: 0, topMm: 0, widthMm: placed.drawing.sheetWidthMm, heightMm: placed.drawing.sheetHeightMm };
    const sheetPx = corners(taken.projection, placed, sheetMm);
    const image = placed.drawing.image;
    const { ppiX, ppiY, skewDegrees } = scaleOf(taken.projection, placed);
    return {
      objectNumber: placed.objectNumber,
      sheetPx: sheetPx.map(rounded) as PrintTruth["sheetPx"],
      imagePx: corners(taken.projection, placed, image).map(rounded) as PrintTruth["sheetPx"],
      sheetWidthMm: sheetMm.widthMm,
      sheetHeightMm: sheetMm.heightMm,
      ppiX: to(ppiX, 2),
      ppiY: to(ppiY, 2),
      skewDegrees: to(skewDegrees, 3),
      keystonePercent: to(keystone(sheetPx), 3),
      blurSigmaPx: blurOver(sheetPx, taken),
      ...sharesOf(taken, index + 1),
      sidesInFrame: sidesInFrame(sheetPx, taken.projection),
    };
  });
}

function corners(
  projection: Projection,
  placed: Placed,
  box: { leftMm: number; topMm: number; widthMm: number; heightMm: number },
): PxPoint[] {
  const { leftMm, topMm, widthMm, heightMm } = box;
  return [
    onFrame(projection, placed, leftMm, topMm),
    onFrame(projection, placed, leftMm + widthMm, topMm),
    onFrame(projection, placed, leftMm + widthMm, topMm + heightMm),
    onFrame(projection, placed, leftMm, topMm + heightMm),
  ];
}

/** A place of the sheet in pixels. A transport that ran unevenly is followed to the row that saw it. */
function onFrame(projection: Projection, placed: Placed, uMm: number, vMm: number): PxPoint {
  const turn = (placed.turnDegrees * Math.PI) / 180;
  const u = uMm - placed.drawing.sheetWidthMm / 2;
  const v = vMm - placed.drawing.sheetHeightMm / 2;
  const ideal = project(
    projection.toPixels,
    placed.centreMm[0] + u * Math.cos(turn) - v * Math.sin(turn),
    placed.centreMm[1] + u * Math.sin(turn) + v * Math.cos(turn),
  );
  const shifts = projection.rowShiftPx;
  if (!shifts) return ideal;
  let y = ideal.y;
  for (let i = 0; i < 4; i++) y = ideal.y - (shifts[Math.min(shifts.length - 1, Math.max(0, Math.round(y)))] as number);
  return { x: ideal.x, y };
}

function scaleOf(projection: Projection, placed: Placed): { ppiX: number; ppiY: number; skewDegrees: number } {
  const u = placed.drawing.sheetWidthMm / 2;
  const v = placed.drawing.sheetHeightMm / 2;
  const [left, right, above, below] = [
    onFrame(projection, placed, u - 0.5, v),
    onFrame(projection, placed, u + 0.5, v),
    onFrame(projection, placed, u, v - 0.5),
    onFrame(projection, placed, u, v + 0.5),
  ];
  return {
    ppiX: apart(left, right) * 25.4,
    ppiY: apart(above, below) * 25.4,
    skewDegrees: (Math.atan2(right.y - left.y, right.x - left.x) * 180) / Math.PI,
  };
}

function keystone(quad: readonly PxPoint[]): number {
  const [a, b, c, d] = quad as [PxPoint, PxPoint, PxPoint, PxPoint];
  const differs = (p: number, q: number) => 100 * (Math.max(p, q) / Math.min(p, q) - 1);
  return Math.max(differs(apart(a, b), apart(d, c)), differs(apart(a, d), apart(b, c)));
}

function blurOver(quad: readonly PxPoint[], taken: Taken): [number, number] {
  const [a, b, c, d] = quad as [PxPoint, PxPoint, PxPoint, PxPoint];
  const sigmas: number[] = [];
  for (let j = 0; j <= 10; j++) {
    for (let i = 0; i <= 10; i++) {
      const [s, t] = [i / 10, j / 10];
      const x = (a.x * (1 - s) + b.x * s) * (1 - t) + (d.x * (1 - s) + c.x * s) * t;
      const y = (a.y * (1 - s) + b.y * s) * (1 - t) + (d.y * (1 - s) + c.y * s) * t;
      sigmas.push(taken.sigmaAt(x, y));
    }
  }
  return [to(Math.min(...sigmas), 2), to(Math.max(...sigmas), 2)];
}

function sharesOf(taken: Taken, owner: number) {
  const { codes, exposed } = taken;
  const most = codes.data instanceof Uint8Array ? 255 : 65535;
  let pixels = 0;
  let glare = 0;
  let high = 0;
  let low = 0;
  for (let i = 0; i < exposed.owner.length; i++) {
    if (exposed.owner[i] !== owner) continue;
    pixels++;
    if (exposed.glare && (exposed.glare[i] as number) > 0.01) glare++;
    const [r, g, b] = [codes.data[i * 3] as number, codes.data[i * 3 + 1] as number, codes.data[i * 3 + 2] as number];
    if (r === most || g === most || b === most) high++;
    if (r === 0 || g === 0 || b === 0) low++;
  }
  const share = (count: number) => (pixels === 0 ? 0 : to((100 * count) / pixels, 2));
  return { glarePercent: share(glare), clippedHighlightsPercent: share(high), clippedShadowsPercent: share(low) };
}

function sidesInFrame(quad: readonly PxPoint[], frame: { widthPx: number; heightPx: number }): number {
  const inside = quad.map((p) => p.x > 0 && p.y > 0 && p.x < frame.widthPx - 1 && p.y < frame.heightPx - 1);
  return inside.filter((seen, i) => seen && inside[(i + 1) % 4]).length;
}

const apart = (p: PxPoint, q: PxPoint): number => Math.hypot(q.x - p.x, q.y - p.y);
const to = (value: number, decimals: number): number => Number(value.toFixed(decimals));
const rounded = (point: PxPoint): PxPoint => ({ x: to(point.x, 2), y: to(point.y, 2) });
