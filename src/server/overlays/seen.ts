import type { MeasureName } from "#domain/measure/catalogue.ts";
import type { FrameSize } from "#domain/measure/marked-area.ts";
import { isPresent, type Outline, type Reading } from "#domain/measure/reading.ts";
import type { OverlayId, ShownOverlay } from "#views/parts/overlays.tsx";
import type { Areas } from "../work/areas-file.ts";

/** What overlays are made from. */
export type Seen = {
  readonly frame: FrameSize;
  readonly outline: Outline | null;
  readonly readings: readonly Reading[];
  /** what is kept of where readings found what they count */
  readonly areas: Areas;
};

export const readingOf = ({ readings }: Seen, name: MeasureName) => readings.find((reading) => reading.name === name);

export const absent = (id: OverlayId, why: string): ShownOverlay => ({ id, words: why, isOn: false, isHint: false, drawing: null });
export const notRead = (id: OverlayId, reading: Reading | undefined): ShownOverlay =>
  absent(id, reading && !isPresent(reading) ? `Not read: ${reading.absent}.` : "Not read yet.");

/** By the sampling that was read; null where it was not. */
export function inMm(px: number, { readings }: Pick<Seen, "readings">): number | null {
  const sampling = readings.find(({ name }) => name === "samplingPpi");
  return isPresent(sampling) ? (px * 25.4) / sampling.value : null;
}

/** Two digits are all that is known of such sizes. */
export const figure = (value: number) => String(Number(value.toPrecision(2)));
