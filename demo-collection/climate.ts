import { normals } from "./random.ts";

/** A year of hourly readings of one of the family's places, as a logger would have kept them. Plausible, not measured. */
export type DemoLogger = { readonly place: string; readonly fileName: string; readonly csv: () => string };

const START = Date.UTC(2025, 9, 1) / 1000;
const HOURS = 365 * 24;

/** A heated room: follows the seasons, cold and dry in winter, damp in autumn; the logger's battery was empty for five days. */
const study: DemoLogger = {
  place: "shelf",
  fileName: "study-2025-2026.csv",
  csv: () =>
    file((hour, noise) => {
      if (hour >= 3410 && hour < 3530) return null;
      const year = season(hour);
      const day = Math.cos((2 * Math.PI * (hour - 15)) / 24);
      const temperature = 20.2 + 3.6 * year + 1.5 * day + 0.5 * noise.slow + 0.08 * noise.quick;
      const humidity = 48 + 7 * Math.sin((2 * Math.PI * (hour / 24 + 60)) / 365) - 2.4 * day + 3.2 * noise.slow + 0.4 * noise.quick;
      return [temperature, humidity];
    }, 4),
};

/** A store with an air conditioner that holds well, and failed for nine days in August. */
const store: DemoLogger = {
  place: "store",
  fileName: "gallery-store-2025-2026.csv",
  csv: () =>
    file((hour, noise) => {
      const failed = hour - 7560;
      const since =
        failed >= 0 && failed < 216 ? 1 - Math.exp(-failed / 30) : failed >= 216 && failed < 300 ? Math.exp(-(failed - 216) / 18) : 0;
      const temperature = 17.4 + 0.5 * season(hour) + 0.25 * noise.slow + 7.5 * since + 0.05 * noise.quick;
      const humidity = 38.5 + 1.6 * season(hour) + 1.1 * noise.slow + 45 * since + 0.3 * noise.quick;
      return [temperature, humidity];
    }, 11),
};

export const DEMO_LOGGERS: readonly DemoLogger[] = [study, store];

type Noise = { readonly slow: number; readonly quick: number };

/** Highest at the end of July, lowest at the end of January. */
const season = (hour: number): number => Math.cos((2 * Math.PI * (hour / 24 - 300)) / 365);

/** The slow noise is weather: it forgets half of itself in about two days. */
function file(at: (hour: number, noise: Noise) => readonly [number, number] | null, seed: number): string {
  const normal = normals(seed);
  const lines = ["Time (UTC);Temperature °C;Relative humidity %"];
  const memory = 0.5 ** (1 / 48);
  let slow = 0;
  for (let hour = 0; hour < HOURS; hour++) {
    slow = memory * slow + Math.sqrt(1 - memory ** 2) * normal();
    const reading = at(hour, { slow, quick: normal() });
    if (!reading) continue;
    const moment = new Date((START + hour * 3600) * 1000).toISOString().slice(0, 16).replace("T", " ");
    lines.push(`${moment};${reading[0].toFixed(1)};${Math.min(99, reading[1]).toFixed(1)}`);
  }
  return `${lines.join("\n")}\n`;
}

/** Days on which prints of the family hung in the light. */
export const DEMO_DISPLAYS = [
  {
    objectNumber: "1987.005.01",
    startsOn: "2026-03-02",
    endsOn: "2026-05-31",
    lux: "50",
    hoursPerDay: "8",
    glazing: "acrylic-uv",
    note: "Spring show",
  },
  {
    objectNumber: "1991.003.01",
    startsOn: "2026-06-15",
    endsOn: "2026-09-30",
    lux: "80",
    hoursPerDay: "10",
    glazing: "glass",
    note: "Summer show",
  },
  {
    objectNumber: "1978.004.12",
    startsOn: "2026-01-10",
    endsOn: "2026-10-31",
    lux: "120",
    hoursPerDay: "6",
    glazing: "none",
    note: "On the mantelpiece",
  },
] as const;
