import { seeded, smoothNoise } from "../random.ts";
import type { Raster } from "../raster.ts";
import { GROUNDS, type GroundName } from "./grounds.ts";
import { defocus } from "./lens.ts";
import { rangeOver } from "./phone.ts";
import { flat } from "./projection.ts";
import { expose, type Placed } from "./scene.ts";
import { develop } from "./sensor.ts";
import type { Taken } from "./taken.ts";

export type FlatbedCapture = {
  readonly ppi: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly lid: GroundName;
  readonly sharpnessPx: number;
  /** the thick end keeps the sheet off the glass: blur there, px */
  readonly liftedBlurPx?: number;
  readonly dust?: number;
  readonly hairs?: number;
  readonly exposure: number;
  readonly crush?: number;
  readonly contrast?: number;
  readonly sharpening?: number;
  readonly noise: number;
  readonly bits: 8 | 16;
  readonly seed: number;
};

/** Glass, a lamp that comes from one side, a lid above; whatever lies on the glass is in the picture. */
export function flatbedCapture(placed: readonly Placed[], bed: FlatbedCapture): Taken {
  const pxPerMm = bed.ppi / 25.4;
  const widthPx = Math.round(bed.widthMm * pxPerMm);
  const heightPx = Math.round(bed.heightMm * pxPerMm);
  const projection = flat(widthPx, heightPx, pxPerMm, pxPerMm, 0);
  const exposed = expose({
    projection,
    placed,
    ground: GROUNDS[bed.lid],
    light: () => 1,
    shadow: { xMm: 0.15, yMm: 0.5, reachMm: 1.1, depth: 0.16 },
  });
  // the thick end of an instant print is the lower one
  const sigmaAt = (_x: number, y: number): number => {
    const towardsPod = Math.max(0, (y / heightPx - 0.45) / 0.5);
    return bed.sharpnessPx + ((bed.liftedBlurPx ?? bed.sharpnessPx) - bed.sharpnessPx) * Math.min(1, towardsPod) ** 1.5;
  };
  const seen = defocus(exposed.raster, sigmaAt, rangeOver(widthPx, heightPx, sigmaAt));
  litter(seen, pxPerMm, bed);
  const codes = develop(seen, {
    exposure: bed.exposure,
    whiteBalance: [1, 1, 1],
    shotNoise: bed.noise,
    readNoise: bed.noise * 0.3,
    ...(bed.contrast === undefined ? {} : { contrast: bed.contrast }),
    ...(bed.crush === undefined ? {} : { crush: bed.crush }),
    ...(bed.sharpening === undefined ? {} : { sharpening: { amount: bed.sharpening, radiusPx: 1 } }),
    bits: bed.bits,
    seed: bed.seed,
  });
  return { codes, exposed, projection, placed, sigmaAt };
}

/**
 * Newton's rings: light mirrored by sheet and glass adds and cancels with the gap between them
 * (thin-film interference, any optics textbook: phase 4 π gap / wavelength). The gap grows with the
 * square of the distance from where they touch.
 */
export function interferenceRings(uMm: number, vMm: number, reachMm: number, amplitude: number): NonNullable<Placed["film"]> {
  const wavelengthsNm = [610, 545, 465];
  return (u, v, out) => {
    const away = Math.max(0, Math.hypot(u - uMm, (v - vMm) * 0.8) + 0.5 * smoothNoise(u / 9, v / 9, 41));
    const gapNm = 18 * away ** 1.75;
    const fading = amplitude * Math.exp(-((away / reachMm) ** 2));
    for (let c = 0; c < 3; c++) out[c] = 1 - fading * Math.cos((4 * Math.PI * gapNm) / (wavelengthsNm[c] as number));
  };
}

/** Dust and hairs on the glass: sharp, light from the lamp, with a little shadow on one side. */
function litter(raster: Raster, pxPerMm: number, bed: FlatbedCapture): void {
  const random = seeded(bed.seed + 3);
  for (let i = 0; i < (bed.dust ?? 0); i++) {
    const radiusPx = (0.03 + 0.16 * random() ** 3) * pxPerMm;
    speck(raster, random() * raster.widthPx, random() * raster.heightPx, Math.max(0.7, radiusPx), random() < 0.75 ? 0.5 : 0.06);
  }
  for (let i = 0; i < (bed.hairs ?? 0); i++) {
    let x = random() * raster.widthPx;
    let y = random() * raster.heightPx;
    let heading = random() * 2 * Math.PI;
    const bend = (random() - 0.5) * 0.05;
    const steps = (3 + 7 * random()) * pxPerMm;
    for (let s = 0; s < steps; s++) {
      speck(raster, x, y, 0.8, 0.45);
      x += Math.cos(heading);
      y += Math.sin(heading);
      heading += bend + (random() - 0.5) * 0.12;
    }
  }
}

function speck(raster: Raster, x: number, y: number, radiusPx: number, tone: number): void {
  const { widthPx, heightPx, data } = raster;
  for (let j = Math.max(0, Math.floor(y - 2 * radiusPx)); j <= Math.min(heightPx - 1, y + 2 * radiusPx); j++) {
    for (let i = Math.max(0, Math.floor(x - 2 * radiusPx)); i <= Math.min(widthPx - 1, x + 2 * radiusPx); i++) {
      const cover = 0.8 * Math.exp(-(((i - x) ** 2 + (j - y) ** 2) / radiusPx ** 2));
      const at = (j * widthPx + i) * 3;
      for (let c = 0; c < 3; c++) data[at + c] = (data[at + c] as number) * (1 - cover) + tone * cover;
    }
  }
}
