import { MEASURES } from "#domain/measure/catalogue.ts";
import { isPresent, type Reading } from "#domain/measure/reading.ts";
import { MEASURE_SUBJECTS } from "./measure-subjects.ts";
import { MeasureValue, PlusMinusNote } from "./measure-value.tsx";
import { ReadingDetail } from "./reading-detail.tsx";
import { curvesOf, SfrPlot } from "./sfr-plot.tsx";
import { sharedWords, wordsOf } from "./shared-words.ts";

/** Everything read from one capture by what it speaks of, each with what it says, how sure it is and what it is made of. */
export function CaptureMeasures({ readings }: { readings: readonly Reading[] }) {
  const subjects = MEASURE_SUBJECTS.map(({ names, ...subject }) => ({
    ...subject,
    read: names.flatMap((name) => readings.find((reading) => reading.name === name) ?? []),
  })).filter(({ read }) => read.length > 0);
  return (
    <>
      {readings.some((reading) => isPresent(reading) && reading.spread) ? <PlusMinusNote /> : null}
      {subjects.map(({ title, read }) => (
        <details class="measure-subject" open data-fold-on-phone>
          <summary>
            <h3>{title}</h3>
          </summary>
          <Subject read={read} />
        </details>
      ))}
      <script src="/assets/fold-on-phone.js"></script>
    </>
  );
}

/** What several of its readings say alike is said above them once. */
function Subject({ read }: { read: readonly Reading[] }) {
  const shared = sharedWords(read);
  return (
    <>
      {shared.map(({ isReason, words, of }) => (
        <p class="small">
          <strong>{of.map(({ name }) => MEASURES[name].label).join(", ")}</strong>: {isReason ? "not read: " : ""}
          {words}
        </p>
      ))}
      <dl class="capture-measures">
        {read.map((reading) => (
          <Measure reading={reading} isSaidAbove={shared.some(({ of }) => of.includes(reading))} />
        ))}
      </dl>
    </>
  );
}

/** @param isSaidAbove its note or reason stands above the group already */
function Measure({ reading, isSaidAbove }: { reading: Reading; isSaidAbove: boolean }) {
  const own = isSaidAbove ? "" : wordsOf(reading);
  return (
    <div>
      <dt>
        {MEASURES[reading.name].label}
        <span class="second-line">{MEASURES[reading.name].meaning}</span>
      </dt>
      <dd>
        {isPresent(reading) ? (
          <MeasureValue reading={reading} />
        ) : (
          <span class="soft">Not read{own === "" ? ", for the reason that stands above" : `: ${own}`}</span>
        )}
        {isPresent(reading) && own !== "" ? <p class="small">{own}</p> : null}
        {isPresent(reading) && reading.detail ? (
          <Detail detail={reading.detail} share={reading.name === "detailCyPerMm" ? "Share" : undefined} />
        ) : null}
      </dd>
    </div>
  );
}

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
