import type { PrintDrawing } from "../print-drawing.ts";
import type { Sheet } from "../print-maker.ts";
import { smoothNoise } from "../random.ts";
import { blurred, newRaster, type Raster, sampleAt } from "../raster.ts";
import type { Ground } from "./grounds.ts";
import { type Projection, project } from "./projection.ts";

/** A sheet lying on the plane. */
export type Placed = {
  readonly objectNumber: string;
  readonly drawing: PrintDrawing;
  readonly sheet: Sheet;
  readonly centreMm: readonly [number, number];
  readonly turnDegrees: number;
  /** colour factors at a place of the sheet, e.g. interference rings; writes into `out` */
  readonly film?: (uMm: number, vMm: number, out: Float32Array) => void;
};

export type Scene = {
  readonly projection: Projection;
  readonly placed: readonly Placed[];
  readonly ground: Ground;
  /** light that falls on a place of the plane; 1 in the middle */
  readonly light: (xMm: number, yMm: number) => number;
  /** light mirrored towards the lens by a perfectly glossy sheet, as a part of diffuse white */
  readonly mirrored?: (xMm: number, yMm: number) => number;
  /** where the sheet's thickness keeps the light off the ground */
  readonly shadow: { readonly xMm: number; readonly yMm: number; readonly reachMm: number; readonly depth: number };
};

export type Exposed = {
  /** light reaching each pixel, before lens and sensor */
  readonly raster: Raster;
  /** 1 + index of the sheet under each pixel; 0 for the ground */
  readonly owner: Uint8Array;
  /** what a mirror image of lamp or window added, before blur */
  readonly glare: Float32Array | null;
};

/** Looks at the plane through every pixel: sheet or ground, times light, plus what the gloss mirrors. */
export function expose(scene: Scene): Exposed {
  const { projection, placed, ground, light, mirrored, shadow } = scene;
  const { widthPx, heightPx, toPlane: m, rowShiftPx } = projection;
  const raster = newRaster(widthPx, heightPx);
  const owner = new Uint8Array(widthPx * heightPx);
  const glare = mirrored ? new Float32Array(widthPx * heightPx) : null;
  const pxPerMm = scaleInTheMiddle(projection);
  const sheets = placed.map((each) => prepared(each, pxPerMm));
  const colour = new Float32Array(3);
  const under = new Float32Array(3);
  const film = new Float32Array(3);
  for (let y = 0; y < heightPx; y++) {
    const yy = y + (rowShiftPx ? (rowShiftPx[y] as number) : 0);
    for (let x = 0; x < widthPx; x++) {
      const at = y * widthPx + x;
      const w = m[6] * x + m[7] * yy + m[8];
      const xMm = (m[0] * x + m[1] * yy + m[2]) / w;
      const yMm = (m[3] * x + m[4] * yy + m[5]) / w;
      let covered = 0;
      let gloss = 0;
      let shade = 1;
      for (let i = 0; i < sheets.length; i++) {
        const sheet = sheets[i] as Prepared;
        const dx = xMm - sheet.xMm;
        const dy = yMm - sheet.yMm;
        const u = dx * sheet.cos + dy * sheet.sin + sheet.widthMm / 2;
        const v = -dx * sheet.sin + dy * sheet.cos + sheet.heightMm / 2;
        const inside = insideMm(sheet, u, v);
        if (inside > -4 * shadow.reachMm - 3) {
          const under = insideMm(sheet, u - shadow.xMm, v - shadow.yMm);
          shade = Math.min(shade, 1 - shadow.depth * Math.exp(-((Math.max(0, -under) / shadow.reachMm) ** 2)));
        }
        const coverage = Math.min(1, Math.max(0, inside * pxPerMm + 0.5));
        if (coverage === 0) continue;
        sampleAt(sheet.raster, u * sheet.pxPerMm - 0.5, v * sheet.pxPerMm - 0.5, colour);
        if (sheet.film) {
          sheet.film(u, v, film);
          for (let c = 0; c < 3; c++) colour[c] = (colour[c] as number) * (film[c] as number);
        }
        covered = coverage;
        gloss = sheet.gloss;
        if (coverage > 0.5) owner[at] = i + 1;
        break;
      }
      if (covered < 1) {
        ground(xMm, yMm, under);
        for (let c = 0; c < 3; c++) colour[c] = covered * (colour[c] as number) + (1 - covered) * (under[c] as number) * shade;
      }
      const lit = light(xMm, yMm);
      let added = 0;
      if (mirrored && glare && covered > 0) {
        added = covered * gloss * mirrored(xMm, yMm);
        glare[at] = added;
      }
      const to = at * 3;
      for (let c = 0; c < 3; c++) raster.data[to + c] = (colour[c] as number) * lit + added;
    }
  }
  return { raster, owner, glare };
}

type Prepared = {
  raster: Raster;
  pxPerMm: number;
  widthMm: number;
  heightMm: number;
  xMm: number;
  yMm: number;
  cos: number;
  sin: number;
  gloss: number;
  cornerMm: number;
  deckle: boolean;
  film: Placed["film"];
};

/** Finer detail than the pixels can hold is blurred away first, as the area of a sensor's pixel does. */
function prepared(placed: Placed, pxPerMm: number): Prepared {
  const { raster } = placed.sheet;
  const finer = placed.sheet.pxPerMm / pxPerMm;
  const data = finer > 1.15 ? blurred(raster.data, raster.widthPx, raster.heightPx, 3, 0.34 * finer) : raster.data;
  const turn = (placed.turnDegrees * Math.PI) / 180;
  return {
    raster: { ...raster, data },
    pxPerMm: placed.sheet.pxPerMm,
    widthMm: placed.drawing.sheetWidthMm,
    heightMm: placed.drawing.sheetHeightMm,
    xMm: placed.centreMm[0],
    yMm: placed.centreMm[1],
    cos: Math.cos(turn),
    sin: Math.sin(turn),
    gloss: placed.drawing.gloss,
    cornerMm: placed.drawing.cornerMm ?? 0,
    deckle: placed.drawing.deckle ?? false,
    film: placed.film,
  };
}

/** Distance to the sheet's edge, mm; positive inside. */
function insideMm(sheet: Prepared, u: number, v: number): number {
  const dx = Math.min(u, sheet.widthMm - u);
  const dy = Math.min(v, sheet.heightMm - v);
  let inside = Math.min(dx, dy);
  const r = sheet.cornerMm;
  if (r > 0 && dx < r && dy < r) inside = r - Math.hypot(r - dx, r - dy);
  if (sheet.deckle && inside > -2 && inside < 2) {
    const along = dx < dy ? v : u;
    // the wave swings about the nominal edge: the mean of |sin| is 2 / π
    inside -= 0.16 * (Math.abs(Math.sin(along * 1.15)) - 2 / Math.PI) + 0.06 * smoothNoise(along * 1.7, dx < dy ? 1 : 5, 21);
  }
  return inside;
}

export function scaleInTheMiddle(projection: Projection): number {
  const a = project(projection.toPixels, -0.5, 0);
  const b = project(projection.toPixels, 0.5, 0);
  return Math.hypot(b.x - a.x, b.y - a.y);
}
