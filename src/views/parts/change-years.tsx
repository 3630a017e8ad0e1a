import type { Capture, Original } from "#domain/capture/capture.ts";
import type { Change } from "#domain/condition/change/change-between.ts";
import type { ChangeName } from "#domain/condition/change/change-names.ts";
import {
  END_POINTS,
  FEWEST_POINTS,
  LIMITS_STANDARD,
  type QualifiedValue,
  type TimeToEnd,
  timeToEnd,
} from "#domain/condition/change/end-points.ts";
import { COVERAGE } from "#domain/condition/change/verdict.ts";
import { dateInWords } from "#domain/print/date.ts";
import { counted } from "../format/counted.ts";
import { ChangeCurve, type Curve } from "./change-curve.tsx";

export type CaptureWithOriginalFacts = Pick<Capture, "id" | "method"> & {
  readonly original: Pick<Original, "capturedAt">;
  readonly name: string;
};

/** A dated capture against the first; null where they have not been held against each other yet. */
export type DatedChange = {
  readonly first: CaptureWithOriginalFacts;
  readonly capture: CaptureWithOriginalFacts;
  readonly held: Change | { readonly refused: string } | null;
};

export const dayOf = ({ original }: CaptureWithOriginalFacts): string =>
  original.capturedAt === null ? "day not known" : dateInWords(original.capturedAt.slice(0, 10));

const SHOWN: readonly ChangeName[] = ["redDensityLoss", "greenDensityLoss", "blueDensityLoss", "borderBlueDensityGain"];
const YEAR_MS = 365.25 * 86_400_000;

/** The curve over the years since the first dated capture, and when published limits would be reached. */
export function ChangeYears({ printId, series }: { printId: number; series: readonly DatedChange[] }) {
  const missing = series.filter(({ held }) => held === null);
  const known = series.filter(({ held }) => held !== null && !("refused" in held));
  if (series.length === 0)
    return <p>A curve needs captures that say when they were taken; there are not two such captures of this side.</p>;
  const curves = SHOWN.map((name): Curve => ({ name, points: known.flatMap((each) => pointOf(each, name) ?? []) })).filter(
    ({ points }) => points.length > 0,
  );
  return (
    <>
      {curves.length > 0 ? <ChangeCurve curves={curves} /> : <p>No densities could be read against the first capture.</p>}
      {missing.length > 0 ? (
        <p>
          Not yet on the curve:{" "}
          {missing.map(({ first, capture }, index) => (
            <>
              {index > 0 ? "; " : ""}
              <a href={`/prints/${printId}/change?older=${first.id}&newer=${capture.id}`}>compare {dayOf(capture)} with the first</a>
            </>
          ))}
          .
        </p>
      ) : null}
      <EndPoints series={known} />
    </>
  );
}

function EndPoints({ series }: { series: readonly DatedChange[] }) {
  if (series.length + 1 < FEWEST_POINTS)
    return (
      <p>
        Years until a published limit of fading are told from {FEWEST_POINTS} or more dated captures;{" "}
        {counted(series.length + 1, "is", "are")} on the curve.
      </p>
    );
  return (
    <>
      <section class="table-frame" aria-labelledby="end-points-title" tabindex={0}>
        <table class="table table-stacked change-table">
          <caption id="end-points-title">
            Years from the first capture until a published limit is reached, if change goes on as it did
          </caption>
          <thead>
            <tr>
              <th scope="col">Limit</th>
              <th scope="col">Years, and the interval of about 95 %</th>
              <th scope="col">How the limit is known to us</th>
            </tr>
          </thead>
          <tbody>
            {END_POINTS.map(({ name, label, limit, known }) => {
              const found = timeToEnd(valuesOf(series, name), limit);
              return (
                <tr>
                  <th scope="row">{label}</th>
                  <td data-label="Years">{timeInWords(found)}</td>
                  <td data-label="Limit">{known === "quoted" ? "read in a quotation" : "from memory"}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
      <p class="hint">The limits are illustrative ones of {LIMITS_STANDARD}.</p>
    </>
  );
}

/** Where the change may as well have stopped, the middle of the interval says nothing. */
function timeInWords(found: TimeToEnd): string {
  if ("absent" in found) return `Not told: ${found.absent}.`;
  const years = (value: number) => Math.max(0, value).toFixed(0);
  if (found.latest === null) return `Not before ${years(found.earliest)} years; whether at all cannot be told yet.`;
  return `${years(found.years)} (${years(found.earliest)} to ${years(found.latest)})`;
}

/** The first capture itself stands at nought, without a difference to be unsure of. */
function valuesOf(series: readonly DatedChange[], name: ChangeName): QualifiedValue[] {
  const [one] = series;
  const later = series.flatMap((each): QualifiedValue[] => {
    const point = pointOf(each, name);
    return point
      ? [
          {
            at: point.years,
            value: point.value,
            standardUncertainty: point.expandedUncertainty / COVERAGE,
            isQualified: each.capture.method !== null && each.first.method !== null,
          },
        ]
      : [];
  });
  const first = { at: 0, value: 0, standardUncertainty: 0, isQualified: one !== undefined && one.first.method !== null };
  return later.length === 0 ? [] : [first, ...later];
}

function pointOf({ first, capture, held }: DatedChange, name: ChangeName) {
  if (held === null || "refused" in held || first.original.capturedAt === null || capture.original.capturedAt === null) return null;
  const number = held.numbers.find((each) => each.name === name);
  if (!number || "absent" in number) return null;
  const years = (Date.parse(capture.original.capturedAt.slice(0, 10)) - Date.parse(first.original.capturedAt.slice(0, 10))) / YEAR_MS;
  return { years, day: dayOf(capture), value: number.value, expandedUncertainty: number.expandedUncertainty };
}
