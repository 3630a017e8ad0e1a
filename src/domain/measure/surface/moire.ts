import { median, medianOfRoom } from "../numbers/robust.ts";
import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { TILE } from "../sharpness/picture-tiles.ts";
import { type TilePower, tilePowers } from "../sharpness/tile-powers.ts";

/**
 * A regular pattern that goes all over the picture at one distance and in one direction: texture of the paper, a printing screen, or
 * the beat of either with the pixels (moiré). Half of what it swings the light, percent.
 *
 * Tiles of 64 px, at the pixels themselves and at every fourth of them, are taken from all over the picture. In the mean of the logarithms of
 * their spectra what the picture shows is smooth, because it differs from tile to tile; what all tiles share stands out
 * as single points. Points five times their surroundings count, where each quarter of the picture has them too; amplitudes of all of them are added. Patterns along the rows or
 * columns of the frame are left to streaks and banding, and so is what blocks of JPEG make.
 *
 * One capture does not tell a beat from the pattern itself, nor from a weave that fills the picture: never more than a hint. Nought
 * means none as strong as `leastSeenPercent` in the detail; absent where the picture's own detail hides all fainter than 4 %.
 * Source: own; beats are those of any sampled wave (sampling theorem).
 */
export function moire(picture: Picture, outline: Outline | null, _context: MeasureContext): Reading[] {
  const name = "moirePercent";
  if (!outline) return [{ name, absent: "the print was not found in the frame" }];
  const seen = STEPS_PX.flatMap((stepPx) => {
    const spectrum = commonSpectrum(picture, outline, stepPx);
    return spectrum ? [{ stepPx, ...patternIn(spectrum, stepPx) }] : [];
  });
  if (seen.length === 0) return [{ name, absent: "the picture is too small or too dark to tell a pattern that goes all over it" }];
  const strongest = seen.reduce((best, each) => (each.amplitude > best.amplitude ? each : best));
  const leastSeenPercent = 100 * Math.max(...seen.map(({ leastSeen }) => leastSeen));
  if (strongest.amplitude > 0)
    return [
      {
        name,
        value: 100 * strongest.amplitude,
        reliability: "weak",
        note: "A regular pattern goes all over the picture: texture of the paper, a printing screen, or its beat with the pixels (moiré). A second capture with the print turned by some degrees would tell: a beat changes its distance, a texture does not.",
        detail: { periodPx: strongest.stepPx * strongest.period, leastSeenPercent },
      },
    ];
  if (leastSeenPercent > MOST_HIDDEN_PERCENT)
    return [
      {
        name,
        absent:
          "the picture has too much detail for a regular pattern to be told from it; a second capture with the print turned by some degrees would tell",
      },
    ];
  return [{ name, value: 0, reliability: "weak", note: "None that goes all over the picture.", detail: { leastSeenPercent } }];
}

const STEPS_PX = [1, 4] as const;
const FEWEST_TILES = 16;
/** Natural logarithm of power over its surroundings. The mean of 16 tiles of noise scatters by 0.32. */
const LEAST_EXCESS = Math.log(5);
const MOST_HIDDEN_PERCENT = 4;
/** In each quarter of the picture, so that a hard line or a fence in one part of it does not count. */
const LEAST_EXCESS_IN_QUARTER = Math.log(5) / 2;
const FEWEST_IN_QUARTER = 3;
const LEAST_CYCLES = 3;
const BLOCK_CYCLES = 8;
/** Sum of the squared window over a tile, times its pixels: the power of a wave of amplitude 2. */
const POWER_OF_TWO = TILE ** 2 * (TILE * 0.375) ** 2;

/** Mean logarithms of the power of the tiles: of all, and of those in each quarter of the picture that has enough. */
type Common = { readonly all: Float64Array; readonly quarters: readonly Float64Array[] };

/** Null where too few tiles lie in the picture. */
function commonSpectrum(picture: Picture, outline: Outline, stepPx: number): Common | null {
  const tiles = tilePowers(picture, outline, stepPx);
  if (tiles.length < FEWEST_TILES) return null;
  const sums = [0, 1, 2, 3].map(() => new LogSums());
  const count = 2 * Math.floor(tiles.length / 2);
  for (let index = 0; index < count; index++) {
    const { quarter, power } = tiles[index] as TilePower;
    (sums[quarter] as LogSums).add(power);
  }
  const all = new Float64Array(TILE * TILE);
  for (const each of sums) {
    const logs = each.sums();
    for (let at = 0; at < all.length; at++) all[at] = (all[at] as number) + (logs[at] as number) / count;
  }
  const quarters = sums.flatMap((each) => (each.count < FEWEST_IN_QUARTER ? [] : [each.sums().map((value) => value / each.count)]));
  return { all, quarters };
}

/** Adds up logarithms of power. Powers of several spectra are multiplied before one logarithm is taken, which is many times quicker. */
class LogSums {
  count = 0;
  readonly #products = new Float64Array(TILE * TILE).fill(1);
  readonly #logs = new Float64Array(TILE * TILE);

  add(power: Float64Array): void {
    const products = this.#products;
    for (let at = 0; at < products.length; at++) products[at] = (products[at] as number) * (power[at] as number);
    if (++this.count % MOST_MULTIPLIED === 0) this.sums();
  }

  sums(): Float64Array {
    for (let at = 0; at < this.#logs.length; at++) this.#logs[at] = (this.#logs[at] as number) + Math.log(this.#products[at] as number);
    this.#products.fill(1);
    return this.#logs;
  }
}

/** Powers lie between 1e-9 and 1e8: the product of so many stays far from the ends of what a number holds. */
const MOST_MULTIPLIED = 16;

/** Points of the half plane that stand out; their amplitudes together, and the period of the strongest in samples. */
function patternIn({ all, quarters }: Common, stepPx: number): { amplitude: number; period: number; leastSeen: number } {
  let amplitude = 0;
  let strongest = 0;
  let period = 0;
  const limits: number[] = [];
  const round = new Float64Array(ROUND.length);
  for (let ky = 1; ky < TILE / 2 - 1; ky++)
    for (let kx = -TILE / 2 + 2; kx < TILE / 2 - 1; kx++) {
      if (Math.min(Math.abs(kx), ky) < 2 || Math.hypot(kx, ky) < LEAST_CYCLES || (stepPx === 1 && isOfBlocks(kx, ky))) continue;
      const value = valueAt(all, kx, ky);
      const around = medianAround(all, kx, ky, round);
      limits.push(amplitudeOf(Math.exp(around + LEAST_EXCESS)));
      if (value < around + LEAST_EXCESS || highestBeside(all, kx, ky) > value) continue;
      if (quarters.some((quarter) => excessAt(quarter, kx, ky, round) < LEAST_EXCESS_IN_QUARTER)) continue;
      const power = [[0, 0] as const, ...NEXT].reduce(
        (sum, [dx, dy]) => sum + Math.exp(valueAt(all, kx + dx, ky + dy)) - Math.exp(around),
        0,
      );
      const found = amplitudeOf(power);
      amplitude += found;
      if (found > strongest) [strongest, period] = [found, TILE / Math.hypot(kx, ky)];
    }
  return { amplitude, period, leastSeen: median(limits) };
}

const valueAt = (spectrum: Float64Array, kx: number, ky: number) => spectrum[((ky + TILE) % TILE) * TILE + ((kx + TILE) % TILE)] as number;

/** `round` is written over. */
function medianAround(spectrum: Float64Array, kx: number, ky: number, round: Float64Array): number {
  for (let k = 0; k < ROUND.length; k++) {
    const [dx, dy] = ROUND[k] as (typeof ROUND)[number];
    round[k] = valueAt(spectrum, kx + dx, ky + dy);
  }
  return medianOfRoom(round);
}

function highestBeside(spectrum: Float64Array, kx: number, ky: number): number {
  let highest = Number.NEGATIVE_INFINITY;
  for (const [dx, dy] of NEXT) highest = Math.max(highest, valueAt(spectrum, kx + dx, ky + dy));
  return highest;
}

const excessAt = (spectrum: Float64Array, kx: number, ky: number, round: Float64Array) =>
  Math.max(valueAt(spectrum, kx, ky), highestBeside(spectrum, kx, ky)) - medianAround(spectrum, kx, ky, round);

const amplitudeOf = (power: number) => 2 * Math.sqrt(Math.max(0, power) / POWER_OF_TWO);

/** Blocks repeat every 8 px: their power lies at whole multiples of 1/8 cycle per px, and by the window in the points beside them. */
const isOfBlocks = (kx: number, ky: number) => [kx, ky].every((k) => Math.abs(k - BLOCK_CYCLES * Math.round(k / BLOCK_CYCLES)) <= 1);

const within = (reach: number) =>
  Array.from({ length: (2 * reach + 1) ** 2 }, (_, k) => [(k % (2 * reach + 1)) - reach, Math.floor(k / (2 * reach + 1)) - reach] as const);
const NEXT = within(1).filter(([dx, dy]) => dx !== 0 || dy !== 0);
const ROUND = within(4).filter(([dx, dy]) => Math.max(Math.abs(dx), Math.abs(dy)) > 2);
