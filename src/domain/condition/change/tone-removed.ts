import { solve } from "../../measure/numbers/least-squares.ts";
import { median, robustSpread } from "../../measure/numbers/robust.ts";
import { blurred, type GridPlane } from "../../measure/planes/grid-plane.ts";
import { type ColourSheet, luminanceOf } from "./colour-sheet.ts";
import { BORDER, type LaidSheets, PICTURE } from "./lay-sheets.ts";

/** What is left of a change once tone, colour and light as a whole are taken out. */
export type ToneRemoved = {
  /** density that the newer capture has beyond what the older one lets expect, per channel; NaN where nothing is told */
  readonly left: readonly [GridPlane, GridPlane, GridPlane];
  /** natural logarithm of what the newer capture's light and VEIL should add up to, per channel */
  readonly expected: readonly [Float32Array, Float32Array, Float32Array];
};

/** Added to all light before its logarithm is taken, so that the codes and the noise of the darkest tones say little. */
export const VEIL = 0.008;
const FIT_SIGMA_MM = 0.25;
const MOST_PLACES = 5000;
const PASSES = 6;
/** Tukey's constant: 95 % efficient for normal errors. */
const TUKEY = 4.685;
const LEAST_SPREAD = 0.003;
/** Blurs tried to bring both captures to one sharpness, mm. */
const BLURS_MM = [0.04, 0.06, 0.09, 0.13, 0.18, 0.25];
const DETAIL_MM = 0.6;
/** Sharpness is told from so much of the middle. */
const WINDOW_PX = 400;
const EDGE_SIGMA_MM = 0.2;
const EDGE_SHARE = 0.1;

/**
 * Expects the newer capture from the older: both brought to one sharpness, then ln light of each channel as a polynomial of the
 * older's three (cubic in each, with products) plus a second-order surface for uneven light, by iterated reweighted least
 * squares with Tukey's weights, for picture and border apart. So exposure, tone curve, colour balance, an even fading and an even
 * stain drop out, and what befell a place stays. Where a stain covers most of the border, it counts as even.
 */
export function removeTone(sheets: LaidSheets): ToneRemoved {
  const { older, newer } = equallySharp(sheets);
  const { width, height } = older;
  const logs = (sheet: ColourSheet) =>
    sheet.channels.map((channel) => channel.map((value) => Math.log(Math.max(0, value) + VEIL))) as unknown as ToneRemoved["expected"];
  const [before, after] = [logs(older), logs(newer)];
  const expected = [0, 1, 2].map(() => new Float32Array(width * height).fill(Number.NaN)) as unknown as ToneRemoved["expected"];
  const smooth = (planes: ToneRemoved["expected"]) =>
    planes.map((data) => blurred({ width, height, data }, FIT_SIGMA_MM * sheets.pxPerMm).data) as unknown as ToneRemoved["expected"];
  const [smoothBefore, smoothAfter] = [smooth(before), smooth(after)];
  for (const part of [PICTURE, BORDER]) {
    const all = placesOf(sheets, part, before, after);
    const stride = Math.max(1, Math.floor(all.length / MOST_PLACES));
    const chosen = all.filter((_, index) => index % stride === 0);
    const terms = part === PICTURE ? tonesAndLight : lightOnly;
    const rows = Array.from(chosen, (at) => terms(smoothBefore, at, width, height));
    const weights = [0, 1, 2].map((channel) => {
      const [from, to] = [smoothBefore[channel] as Float32Array, smoothAfter[channel] as Float32Array];
      return fitRobustly(
        rows,
        Array.from(chosen, (at) => (to[at] as number) - (from[at] as number)),
      );
    });
    for (const at of all) {
      const row = terms(before, at, width, height);
      for (const channel of [0, 1, 2] as const) {
        let value = (before[channel] as Float32Array)[at] as number;
        for (let k = 0; k < row.length; k++) value += (row[k] as number) * (weights[channel]?.[k] ?? Number.NaN);
        expected[channel][at] = value;
      }
    }
  }
  const left = [0, 1, 2].map((channel) => ({
    width,
    height,
    data: (expected[channel] as Float32Array).map((value, at) => (value - ((after[channel] as Float32Array)[at] as number)) / Math.LN10),
  })) as unknown as ToneRemoved["left"];
  return { left, expected };
}

/** Cells of a part that both captures hold. */
function placesOf({ parts }: LaidSheets, part: number, before: ToneRemoved["expected"], after: ToneRemoved["expected"]): Int32Array {
  const places: number[] = [];
  for (let at = 0; at < parts.length; at++) {
    if (parts[at] !== part) continue;
    let sum = 0;
    for (let channel = 0; channel < 3; channel++)
      sum += ((before[channel] as Float32Array)[at] as number) + ((after[channel] as Float32Array)[at] as number);
    if (!Number.isNaN(sum)) places.push(at);
  }
  return Int32Array.from(places);
}

const lightOnly = (_: ToneRemoved["expected"], at: number, width: number, height: number): number[] => {
  const u = (2 * (at % width)) / width - 1;
  const v = (2 * Math.floor(at / width)) / height - 1;
  return [1, u, v, u * u, u * v, v * v];
};

const tonesAndLight = (logs: ToneRemoved["expected"], at: number, width: number, height: number): number[] => {
  // about -1..1 over the tones of a print
  const [r, g, b] = logs.map((plane) => ((plane[at] as number) + 2) / 2) as [number, number, number];
  return [...lightOnly(logs, at, width, height), r, g, b, r * r, g * g, b * b, r * g, g * b, r * b, r ** 3, g ** 3, b ** 3];
};

function fitRobustly(rows: readonly (readonly number[])[], wanted: readonly number[]): number[] | null {
  const terms = rows[0]?.length ?? 0;
  if (rows.length < 4 * terms || terms === 0) return null;
  let trust = rows.map(() => 1);
  let found: number[] | null = null;
  for (let pass = 0; pass < PASSES; pass++) {
    const matrix = new Array<number>(terms * terms).fill(0);
    const right = new Array<number>(terms).fill(0);
    for (const [index, row] of rows.entries()) {
      const weight = trust[index] as number;
      if (weight === 0) continue;
      for (let i = 0; i < terms; i++) {
        const weighted = weight * (row[i] as number);
        right[i] = (right[i] as number) + weighted * (wanted[index] as number);
        for (let j = 0; j <= i; j++) matrix[i * terms + j] = (matrix[i * terms + j] as number) + weighted * (row[j] as number);
      }
    }
    for (let i = 0; i < terms; i++) {
      // a picture of few tones does not fix every term: the smallest pull to nought settles the rest
      matrix[i * terms + i] = (matrix[i * terms + i] as number) * (1 + 1e-6) + 1e-6;
      for (let j = 0; j < i; j++) matrix[j * terms + i] = matrix[i * terms + j] as number;
    }
    const solved = solve(matrix, right);
    if (!solved) return found;
    found = solved;
    const left = rows.map(
      (row, index) => (wanted[index] as number) - row.reduce((sum, value, k) => sum + value * (solved[k] as number), 0),
    );
    const reach = TUKEY * Math.max(LEAST_SPREAD, robustSpread(left, 0));
    trust = left.map((value) => (Math.abs(value) < reach ? (1 - (value / reach) ** 2) ** 2 : 0));
  }
  return found;
}

type Window = { readonly left: number; readonly top: number; readonly width: number; readonly height: number };

const middleOf = (width: number, height: number): Window => {
  const [across, down] = [Math.min(width, WINDOW_PX), Math.min(height, WINDOW_PX)];
  return { left: (width - across) >> 1, top: (height - down) >> 1, width: across, height: down };
};

function cut({ width, data }: GridPlane, window: Window): GridPlane {
  const part = new Float32Array(window.width * window.height);
  for (let y = 0; y < window.height; y++) {
    const start = (window.top + y) * width + window.left;
    part.set(data.subarray(start, start + window.width), y * window.width);
  }
  return { width: window.width, height: window.height, data: part };
}

/**
 * Blurs the sharper of both until edges in the middle of the sheet agree best. What differs in smooth places is noise, which a blur
 * lessens too, and is taken off what differs at edges: else the noisier capture would be blurred, not the sharper one.
 */
export function equallySharp({ older, newer, pxPerMm, parts }: LaidSheets): { older: ColourSheet; newer: ColourSheet } {
  const logsOf = (plane: GridPlane) => ({ ...plane, data: plane.data.map((value) => Math.log(Math.max(0, value) + VEIL)) });
  const detailOf = (logs: GridPlane) => {
    const mean = blurred(logs, DETAIL_MM * pxPerMm).data;
    return { ...logs, data: logs.data.map((value, at) => value - (mean[at] as number)) };
  };
  const window = middleOf(older.width, older.height);
  const [olderLogs, newerLogs] = [logsOf(cut(luminanceOf(older), window)), logsOf(cut(luminanceOf(newer), window))];
  const [one, other] = [detailOf(olderLogs), detailOf(newerLogs)];
  const looked = cut({ ...older, data: Float32Array.from(parts) }, window).data;
  const { edges, smooth } = edgesOfBoth(
    blurred(olderLogs, EDGE_SIGMA_MM * pxPerMm),
    blurred(newerLogs, EDGE_SIGMA_MM * pxPerMm),
    (at) => looked[at] === PICTURE,
  );
  const misfit = (a: Float32Array, b: Float32Array) => {
    const middle = (cells: readonly number[]) => median(cells.map((at) => ((a[at] as number) - (b[at] as number)) ** 2));
    const left = edges.length === 0 ? Number.NaN : middle(edges) - middle(smooth);
    return Number.isNaN(left) ? Number.POSITIVE_INFINITY : left;
  };
  let best = { misfit: misfit(one.data, other.data), olderMm: 0, newerMm: 0 };
  for (const mm of BLURS_MM) {
    const blursOlder = misfit(blurred(one, mm * pxPerMm).data, other.data);
    if (blursOlder < best.misfit) best = { misfit: blursOlder, olderMm: mm, newerMm: 0 };
    const blursNewer = misfit(one.data, blurred(other, mm * pxPerMm).data);
    if (blursNewer < best.misfit) best = { misfit: blursNewer, olderMm: 0, newerMm: mm };
  }
  return { older: softened(older, best.olderMm * pxPerMm), newer: softened(newer, best.newerMm * pxPerMm) };
}

/** Cells at the steepest edges that both hold, so that a new crack is none, and those of the smoother half. */
function edgesOfBoth(older: GridPlane, newer: GridPlane, isLooked: (at: number) => boolean): { edges: number[]; smooth: number[] } {
  const { width, height } = older;
  const slope = ({ data }: GridPlane, at: number) =>
    Math.hypot((data[at + 1] as number) - (data[at - 1] as number), (data[at + width] as number) - (data[at - width] as number));
  const found: { at: number; slope: number }[] = [];
  for (let at = width; at < width * (height - 1); at++) {
    const least = Math.min(slope(older, at), slope(newer, at));
    if (isLooked(at) && !Number.isNaN(least)) found.push({ at, slope: least });
  }
  const cells = found.sort((a, b) => b.slope - a.slope).map(({ at }) => at);
  return { edges: cells.slice(0, Math.round(cells.length * EDGE_SHARE)), smooth: cells.slice(cells.length >> 1) };
}

function softened(sheet: ColourSheet, sigmaPx: number): ColourSheet {
  if (sigmaPx === 0) return sheet;
  const { width, height } = sheet;
  return {
    ...sheet,
    channels: sheet.channels.map((data) => blurred({ width, height, data }, sigmaPx).data) as unknown as ColourSheet["channels"],
  };
}
