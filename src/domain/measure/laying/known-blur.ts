import { z } from "zod";
import type { Quad } from "../picture.ts";
import { isPresent, type Outline, type Reading } from "../reading.ts";
import { VARIANCE_AT_ONE } from "../sharpness/movement.ts";

/** What one capture alone told of its blur, for comparing it with others: how much each falls off is a share of it. */
export type KnownBlur = {
  /** the sheet in the frame, px */
  readonly sheet: Quad;
  /** mean variance of the blur all round by the print's own edges, mm²; null where they could not be read */
  readonly varianceMm2: number | null;
};

const places = z.array(z.object({ sfr50CyPerMm: z.number().positive() })).min(1);

/** By the edges piece by piece; where those do not tell, by the resolution of the edges that could be used. */
export function knownBlur({ sheet }: Outline, readings: readonly Reading[]): KnownBlur {
  const named = (name: Reading["name"]) => readings.find((reading) => reading.name === name);
  const falloff = named("focusFalloffPercent");
  const read = places.safeParse(isPresent(falloff) ? falloff.detail?.places : null);
  const sfr50 = named("sfr50CyPerMm");
  const frequencies = read.success ? read.data.map(({ sfr50CyPerMm }) => sfr50CyPerMm) : isPresent(sfr50) ? [sfr50.value] : [];
  const variances = frequencies.filter((frequency) => frequency > 0).map((frequency) => VARIANCE_AT_ONE / frequency ** 2);
  return { sheet, varianceMm2: variances.length > 0 ? variances.reduce((sum, each) => sum + each, 0) / variances.length : null };
}
