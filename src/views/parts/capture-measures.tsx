import { MEASURE_NAMES, MEASURES } from "#domain/measure/catalogue.ts";
import { isPresent, type Reading } from "#domain/measure/reading.ts";
import { MeasureValue, PlusMinusNote } from "./measure-value.tsx";
import { ReadingDetail } from "./reading-detail.tsx";
import { curvesOf, SfrPlot } from "./sfr-plot.tsx";

/** Everything read from one capture, each with what it says, how sure it is and what it is made of. */
export const CaptureMeasures = ({ readings }: { readings: readonly Reading[] }) => (
  <>
    {readings.some((reading) => isPresent(reading) && reading.spread) ? <PlusMinusNote /> : null}
    <dl class="capture-measures">
      {inOrder(readings).map((reading) => (
        <>
          <dt>
            {MEASURES[reading.name].label}
            <span class="second-line">{MEASURES[reading.name].meaning}</span>
          </dt>
          <dd>
            {isPresent(reading) ? <MeasureValue reading={reading} /> : <span class="soft">Not read: {reading.absent}</span>}
            {isPresent(reading) && reading.note ? <p class="small">{reading.note}</p> : null}
            {isPresent(reading) && reading.detail ? (
              <Detail detail={reading.detail} share={reading.name === "detailCyPerMm" ? "Share" : undefined} />
            ) : null}
          </dd>
        </>
      ))}
    </dl>
  </>
);

function Detail({ detail, share }: { detail: Readonly<Record<string, unknown>>; share: string | undefined }) {
  const curves = curvesOf(detail);
  const { curves: _, ...figures } = detail;
  return (
    <>
      {curves.length > 0 ? <SfrPlot curves={curves} share={share} /> : null}
      <ReadingDetail detail={figures} />
    </>
  );
}

const inOrder = (readings: readonly Reading[]): Reading[] =>
  readings.toSorted((a, b) => MEASURE_NAMES.indexOf(a.name) - MEASURE_NAMES.indexOf(b.name));
