import { z } from "zod";
import { LinePlot } from "./line-plot.tsx";

const curve = z.object({ label: z.string(), cyPerMm: z.array(z.number()).min(2), modulation: z.array(z.number()).min(2) });

export type SfrCurve = z.output<typeof curve>;

/** The curves kept with a reading of resolution; none where it kept none. */
export function curvesOf(detail: Readonly<Record<string, unknown>> | undefined): SfrCurve[] {
  const read = z.array(curve).safeParse(detail?.curves);
  return read.success ? read.data : [];
}

/**
 * Contrast kept (or another share) against fineness of pattern, one line a curve, with the same numbers as a table behind it.
 * @param share what the curves tell, as the head of a column
 */
export const SfrPlot = ({ curves, share = "Contrast kept" }: { curves: readonly SfrCurve[]; share?: string }) => (
  <LinePlot
    lines={curves.map(({ label, cyPerMm, modulation }) => ({ label, x: cyPerMm, y: modulation }))}
    said={`${share} at each fineness of pattern`}
    across={{ title: "cycles per mm of the print", inWords: (value) => value.toFixed(2) }}
    up={{
      title: share,
      levels: [0, 0.1, 0.5, 1],
      inWords: (value) => `${(100 * value).toFixed(1)} %`,
      onAxis: (value) => `${100 * value} %`,
    }}
  />
);
