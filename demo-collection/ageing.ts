import type { Ageing, Mark, PrintDrawing } from "./print-drawing.ts";
import { seeded, smoothNoise } from "./random.ts";
import { type Raster, tabulated } from "./raster.ts";

/**
 * Yellows the sheet and fades its dyes. Between first and later capture (`ageing` 0 to 1) the border
 * loses about 2 % of its blue and the picture 2.5 % of its density: what the eye just misses.
 */
export function ageSheet(raster: Raster, drawing: PrintDrawing, ageing: Ageing): void {
  const yellow = (drawing.yellowing ?? 0) + 0.009 * ageing;
  const fading = drawing.fading ?? [0, 0, 0];
  const kept = fading.map((lost) => (1 - lost) * (1 - 0.025 * ageing));
  const stain = [10 ** (-0.08 * yellow), 10 ** (-0.25 * yellow), 10 ** -yellow];
  // fading is lost density; the paper's own is hardly any, so a border only yellows
  const aged = [0, 1, 2].map((c) => tabulated((reflectance) => Math.max(0.003, reflectance) ** (kept[c] as number) * (stain[c] as number)));
  for (let i = 0; i < raster.data.length; i++) {
    raster.data[i] = (aged[i % 3] as (reflectance: number) => number)(raster.data[i] as number);
  }
}

export function markSheet(raster: Raster, pxPerMm: number, marks: readonly Mark[], seed: number, ageing: Ageing): void {
  for (const mark of marks) {
    if (mark.kind === "stain") stain(raster, pxPerMm, mark.growing ? { ...mark, radiusMm: mark.radiusMm * ageing } : mark);
    else if (mark.kind === "foxing") fox(raster, pxPerMm, mark, seed);
    else drawLine(raster, pxPerMm, mark);
  }
}

function stain(raster: Raster, pxPerMm: number, mark: Extract<Mark, { kind: "stain" }>): void {
  const [xMm, yMm] = mark.atMm;
  if (mark.radiusMm === 0) return;
  around(raster, pxPerMm, xMm, yMm, mark.radiusMm * 1.4, (at, dx, dy) => {
    const rim = mark.radiusMm * (1 + 0.18 * smoothNoise(Math.atan2(dy, dx) * 2.2 + 9, 3, 5));
    const inside = 1 / (1 + Math.exp((Math.hypot(dx, dy) - rim) / 0.35));
    // liquid carries dirt to its edge and leaves it there
    const tide = 1 + 1.4 * Math.exp(-(((Math.hypot(dx, dy) - rim) / 0.7) ** 2));
    for (let c = 0; c < 3; c++)
      raster.data[at + c] = (raster.data[at + c] as number) * 10 ** (-(mark.density[c] as number) * inside * tide);
  });
}

function fox(raster: Raster, pxPerMm: number, mark: Extract<Mark, { kind: "foxing" }>, seed: number): void {
  const random = seeded(seed + 7);
  for (let i = 0; i < mark.count; i++) {
    const radiusMm = 0.2 + 0.9 * random() ** 3;
    const xMm = random() * (raster.widthPx / pxPerMm);
    const yMm = random() * (raster.heightPx / pxPerMm);
    around(raster, pxPerMm, xMm, yMm, radiusMm * 2.5, (at, dx, dy) => {
      const depth = mark.density * Math.exp(-(dx * dx + dy * dy) / (radiusMm * radiusMm));
      raster.data[at] = (raster.data[at] as number) * 10 ** (-0.35 * depth);
      raster.data[at + 1] = (raster.data[at + 1] as number) * 10 ** (-0.7 * depth);
      raster.data[at + 2] = (raster.data[at + 2] as number) * 10 ** (-1.1 * depth);
    });
  }
}

/** A scratch lifts the emulsion and shows the white; a crease breaks it and shows a dark line with a light flank. */
function drawLine(raster: Raster, pxPerMm: number, mark: Extract<Mark, { kind: "scratch" | "crease" }>): void {
  const [x1, y1] = mark.fromMm;
  const [x2, y2] = mark.toMm;
  const lengthMm = Math.hypot(x2 - x1, y2 - y1);
  const ux = (x2 - x1) / lengthMm;
  const uy = (y2 - y1) / lengthMm;
  around(raster, pxPerMm, (x1 + x2) / 2, (y1 + y2) / 2, lengthMm / 2 + 1, (at, dx, dy) => {
    const along = dx * ux + dy * uy;
    if (Math.abs(along) > lengthMm / 2) return;
    const across = -dx * uy + dy * ux + 0.12 * smoothNoise(along * 0.9, 2, 11);
    const line = Math.exp(-((across / mark.widthMm) ** 2));
    const flank = Math.exp(-(((across - 2.5 * mark.widthMm) / (2 * mark.widthMm)) ** 2));
    for (let c = 0; c < 3; c++) {
      const under = raster.data[at + c] as number;
      raster.data[at + c] = mark.kind === "scratch" ? under + 0.75 * line * (0.8 - under) : under * (1 - 0.35 * line) + 0.08 * flank;
    }
  });
}

function around(
  raster: Raster,
  pxPerMm: number,
  xMm: number,
  yMm: number,
  reachMm: number,
  touch: (at: number, dxMm: number, dyMm: number) => void,
): void {
  const left = Math.max(0, Math.floor((xMm - reachMm) * pxPerMm));
  const right = Math.min(raster.widthPx - 1, Math.ceil((xMm + reachMm) * pxPerMm));
  const top = Math.max(0, Math.floor((yMm - reachMm) * pxPerMm));
  const bottom = Math.min(raster.heightPx - 1, Math.ceil((yMm + reachMm) * pxPerMm));
  for (let y = top; y <= bottom; y++) {
    for (let x = left; x <= right; x++) touch((y * raster.widthPx + x) * 3, x / pxPerMm - xMm, y / pxPerMm - yMm);
  }
}
