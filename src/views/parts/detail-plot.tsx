import type { Side } from "#domain/capture/capture.ts";
import { isPresent, type Reading } from "#domain/measure/reading.ts";
import { curvesOf, SfrPlot } from "./sfr-plot.tsx";

type Compared = { readonly name: string; readonly readings: readonly Reading[] };

/** How much of what each capture shows the others confirm, one line a capture; nothing where no capture was compared so finely. */
export function DetailPlot({ side, captures }: { side: Side; captures: readonly Compared[] }) {
  const curves = captures.flatMap(({ name: label, readings }) => {
    const reading = readings.find(({ name }) => name === "detailCyPerMm");
    const [confirmed] = reading && isPresent(reading) ? curvesOf(reading.detail) : [];
    return confirmed ? [{ ...confirmed, label }] : [];
  });
  if (curves.length === 0) return null;
  return (
    <section aria-labelledby={`detail-${side}`}>
      <h3 id={`detail-${side}`}>Detail that the captures confirm in each other</h3>
      <p class="small">
        The finer a pattern, the less of what a capture shows of it is detail and the more is its own noise. Where a line falls below 50 %,
        noise has the upper hand; sharpening does not move it. With two captures a line shows how far both agree.
      </p>
      <SfrPlot curves={curves} share="Confirmed detail" />
    </section>
  );
}
