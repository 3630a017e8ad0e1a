import { z } from "zod";
import { TARGET_MEASURE_NAMES } from "../aim/target-measures.ts";
import { FRAME_PARTS, framePart } from "./corner-figures.ts";
import type { TargetRead, TargetReading } from "./read-target.ts";

const colour = z.tuple([z.number(), z.number(), z.number()]);

/** What is kept of a target that was read, and what the command line answers programs. */
export const keptTargetRead = z.object({
  readings: z.array(
    z.union([
      z.object({
        name: z.enum(TARGET_MEASURE_NAMES),
        value: z.number(),
        bound: z.enum(["lower", "upper"]).optional(),
        note: z.string().optional(),
      }),
      z.object({ name: z.enum(TARGET_MEASURE_NAMES), absent: z.string() }),
    ]),
  ),
  /** null where a plain sheet was read: nothing on it tells */
  ppi: z.object({ x: z.number(), y: z.number() }).nullable(),
  /** quarter turns clockwise by which it lay turned */
  quarterTurns: z.number().int().min(0).max(3),
  patches: z.array(
    z.object({ id: z.string(), colour, truth: colour.nullable(), deltaE: z.number().nullable(), noise: z.number(), clipped: z.number() }),
  ),
  edges: z.array(
    z.object({
      id: z.string(),
      direction: z.enum(["across", "down"]),
      /** of the frame; checks that were kept earlier do not tell it */
      part: z.enum(FRAME_PARTS).optional(),
      refused: z.string().nullable(),
      /** cycles per mm on the target */
      sfr50CyPerMm: z.number().nullable(),
      sfr10CyPerMm: z.number().nullable(),
      curve: z.object({ cyPerMm: z.array(z.number()), modulation: z.array(z.number()) }).nullable(),
    }),
  ),
});
export type KeptTargetRead = z.output<typeof keptTargetRead>;

/** What a plain sheet that fills the frame tells: evenness, and nothing else. */
export const keptEvenness = (reading: TargetReading): KeptTargetRead => ({
  readings: [rounding(reading)],
  ppi: null,
  quarterTurns: 0,
  patches: [],
  edges: [],
});

const CURVE_POINTS = 26;

/** Rounded, with curves thinned to what a plot needs. */
export function toKeep({ readings, ppi, turns, patches, edges }: TargetRead): KeptTargetRead {
  return {
    readings: readings.map(rounding),
    ppi: { x: rounded(ppi.x), y: rounded(ppi.y) },
    quarterTurns: turns,
    patches: patches.map(({ id, colour: [l, a, b], truth, deltaE, noise, clipped }) => ({
      id,
      colour: [rounded(l), rounded(a), rounded(b)],
      truth: truth && [truth[0], truth[1], truth[2]],
      deltaE: deltaE === null ? null : rounded(deltaE),
      noise: rounded(noise),
      clipped: rounded(clipped),
    })),
    edges: edges.map(({ id, direction, place, response }) => {
      const part = framePart(place);
      if ("refused" in response)
        return { id, direction, part, refused: response.refused, sfr50CyPerMm: null, sfr10CyPerMm: null, curve: null };
      const perMm = (direction === "across" ? ppi.x : ppi.y) / 25.4;
      const inMm = (frequency: number | null) => (frequency === null ? null : rounded(frequency * perMm));
      return {
        id,
        direction,
        part,
        refused: null,
        sfr50CyPerMm: inMm(response.sfr50),
        sfr10CyPerMm: inMm(response.sfr10),
        curve: curveOf(response, perMm),
      };
    }),
  };
}

/** Up to half the sampling. */
function curveOf({ frequencies, modulation }: { frequencies: Float64Array; modulation: Float64Array }, perMm: number) {
  const last = frequencies.findLastIndex((frequency) => frequency <= 0.5);
  const at = Array.from({ length: CURVE_POINTS }, (_, index) => Math.round((index / (CURVE_POINTS - 1)) * last));
  return {
    cyPerMm: at.map((index) => rounded((frequencies[index] ?? 0) * perMm)),
    modulation: at.map((index) => rounded(modulation[index] ?? 0)),
  };
}

const rounding = (reading: TargetReading): TargetReading => ("value" in reading ? { ...reading, value: rounded(reading.value) } : reading);

const rounded = (value: number): number => Number(value.toPrecision(6));
