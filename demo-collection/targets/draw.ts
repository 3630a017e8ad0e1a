import { converter, convertLrgbToRgb } from "culori";
import { normals, seedOf } from "../random.ts";
import { CARD_COLOURS, CARD_LAYOUT } from "./card.ts";
import type { DemoEvenSheet, DemoTargetCheck } from "./checks.ts";

/** Eight bits a colour, R, G, B in turn, sRGB. */
export type Drawn = { readonly data: Uint8Array; readonly widthPx: number; readonly heightPx: number };
type Rgb = readonly [number, number, number];
type Box = { readonly leftMm: number; readonly topMm: number; readonly widthMm: number; readonly heightMm: number };

const LEAN = (5 * Math.PI) / 180;
const [DARK, PAPER, GROUND] = [0.05, 0.68, 0.02];
const MARGIN_MM = 4;
/** Blur grows from the middle of the frame to its corners, where an edge lies beyond this share of the way both ways. */
const CORNER_FROM = 0.5;

/** The card as a set-up with known faults shows it, lying a little askew on a dark ground. */
export function drawCard({ file, ppi, turnDegrees, faults }: DemoTargetCheck): Drawn {
  const { gain, blurPx, redShiftPx, noise } = faults;
  const { widthMm, heightMm } = CARD_LAYOUT.sheet;
  const pxPerMm = ppi / 25.4;
  const [widthPx, heightPx] = [Math.round((widthMm + 2 * MARGIN_MM) * pxPerMm), Math.round((heightMm + 2 * MARGIN_MM) * pxPerMm)];
  const [cos, sin] = [Math.cos((turnDegrees * Math.PI) / 180), Math.sin((turnDegrees * Math.PI) / 180)];
  const light = cardLight(blurPx[0] / pxPerMm, blurPx[1] / pxPerMm);
  const lightAt = (x: number, y: number): Rgb => {
    const [dx, dy] = [(x - (widthPx - 1) / 2) / pxPerMm, (y - (heightPx - 1) / 2) / pxPerMm];
    return light(widthMm / 2 + dx * cos + dy * sin, heightMm / 2 - dx * sin + dy * cos);
  };
  return exposed(widthPx, heightPx, seedOf(file), noise, (x, y) => {
    const [, green, blue] = lightAt(x, y);
    const [red] = lightAt(x - redShiftPx, y);
    return [red * gain[0], green * gain[1], blue * gain[2]];
  });
}

/** Plain paper that fills the frame; light falls with the square of the distance from its middle. */
export function drawEvenSheet({ file, cornerLight }: DemoEvenSheet): Drawn {
  const [widthPx, heightPx] = [900, 600];
  return exposed(widthPx, heightPx, seedOf(file), 0.01, (x, y) => {
    const [u, v] = [(2 * x) / (widthPx - 1) - 1, (2 * y) / (heightPx - 1) - 1];
    const lit = PAPER * (1 - ((1 - cornerLight) * (u * u + v * v)) / 2);
    return [lit, lit, lit];
  });
}

function exposed(widthPx: number, heightPx: number, seed: number, noise: number, light: (x: number, y: number) => Rgb): Drawn {
  const normal = normals(seed);
  const data = new Uint8Array(widthPx * heightPx * 3);
  for (let y = 0; y < heightPx; y++)
    for (let x = 0; x < widthPx; x++) {
      const [red, green, blue] = light(x, y).map((value) => Math.min(1, Math.max(0, value * (1 + noise * normal())))) as unknown as Rgb;
      const { r, g, b } = convertLrgbToRgb({ r: red, g: green, b: blue });
      data.set([Math.round(255 * r), Math.round(255 * g), Math.round(255 * b)], (y * widthPx + x) * 3);
    }
  return { data, widthPx, heightPx };
}

const toLinear = converter("lrgb");

function cardLight(middleMm: number, cornersMm: number): (x: number, y: number) => Rgb {
  const { sheet, edges, grids } = CARD_LAYOUT;
  const patches = grids.flatMap(({ ids, leftMm, topMm, widthMm, heightMm, columnStepMm }) =>
    ids.map((id, index) => {
      const [l, a, b] = CARD_COLOURS.get(id) ?? [50, 0, 0];
      const { r, g, b: blue } = toLinear({ mode: "lab", l, a, b });
      return { leftMm: leftMm + index * columnStepMm, topMm, widthMm, heightMm, rgb: [r, g, blue] as Rgb };
    }),
  );
  const blurOf = ({ leftMm, topMm, widthMm, heightMm }: Box) => {
    const across = Math.abs((2 * (leftMm + widthMm / 2)) / sheet.widthMm - 1);
    const down = Math.abs((2 * (topMm + heightMm / 2)) / sheet.heightMm - 1);
    return across > CORNER_FROM && down > CORNER_FROM ? cornersMm : middleMm;
  };
  return (x, y) => {
    if (x < 0 || y < 0 || x > sheet.widthMm || y > sheet.heightMm) return grey(GROUND);
    const patch = patches.find((each) => isIn(each, x, y));
    if (patch) return patch.rgb;
    const edge = edges.find((each) => isIn(each, x, y));
    if (!edge) return grey(PAPER);
    const [dx, dy] = [x - edge.leftMm - edge.widthMm / 2, y - edge.topMm - edge.heightMm / 2];
    const off = edge.id.endsWith("-down") ? dy * Math.cos(LEAN) - dx * Math.sin(LEAN) : dx * Math.cos(LEAN) - dy * Math.sin(LEAN);
    return grey(DARK + (PAPER - DARK) * normalShare(off / blurOf(edge)));
  };
}

const isIn = ({ leftMm, topMm, widthMm, heightMm }: Box, x: number, y: number): boolean =>
  x >= leftMm && x <= leftMm + widthMm && y >= topMm && y <= topMm + heightMm;

const grey = (light: number): Rgb => [light, light, light];

/** Share of a normal distribution below z: M. Abramowitz and I. Stegun, Handbook of Mathematical Functions, 26.2.17 (from memory). */
function normalShare(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * series;
  return z >= 0 ? 1 - tail : tail;
}
