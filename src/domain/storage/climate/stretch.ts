import { DAY_SECONDS } from "./series.ts";

/** For which time a place's climate is shown, counted back from its last reading. */
export const STRETCHES = { month: "Last 30 days", year: "Last 365 days", all: "All readings" } as const;
export type StretchName = keyof typeof STRETCHES;

export const isStretch = (text: string | undefined): text is StretchName => text !== undefined && Object.hasOwn(STRETCHES, text);

/** The seconds a stretch spans; the last reading belongs to it. A year is asked for whole, however few readings there are in it. */
export function stretchOf(
  name: StretchName,
  span: { firstSeconds: number; lastSeconds: number },
): { fromSeconds: number; toSeconds: number } {
  const toSeconds = span.lastSeconds + 1;
  if (name === "all") return { fromSeconds: span.firstSeconds, toSeconds };
  return { fromSeconds: toSeconds - (name === "year" ? 365 : 30) * DAY_SECONDS, toSeconds };
}
