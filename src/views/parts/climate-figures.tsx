import type { Child } from "hono/jsx";
import { durationInWords } from "#domain/storage/climate/import-report.ts";
import { MOULD_SOURCE } from "#domain/storage/climate/mould.ts";
import type { AgainstLimit, PlaceClimate } from "#domain/storage/climate/place-climate.ts";
import { limitInWords } from "#domain/storage/climate/published-limits.ts";
import { RATE_BASIS, type ReactionRate } from "#domain/storage/climate/reaction-rate.ts";
import type { Figure } from "#domain/storage/climate/series.ts";
import { type DailySwing, dayInIso, type SeasonalSwing } from "#domain/storage/climate/swing.ts";

/** How the time in a place was for each process that is kept there. */
export const AgainstLimits = ({ lines, processNames }: { lines: readonly AgainstLimit[]; processNames: ReadonlyMap<string, string> }) => (
  <div class="table-frame">
    <table class="table table-stacked">
      <caption>Against the published limits</caption>
      <thead>
        <tr>
          <th scope="col">Prints</th>
          <th scope="col">Limit</th>
          <th scope="col" class="number">
            Outside
          </th>
          <th scope="col" class="number">
            Inside
          </th>
          <th scope="col" class="number">
            Not known
          </th>
          <th scope="col">Longest time outside</th>
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <tr>
            <th scope="row">
              {line.processIds.length === 0 ? "No print is kept here" : line.processIds.map((id) => processNames.get(id) ?? id).join("; ")}
            </th>
            <td data-label="Limit">
              {limitInWords(line.limit)}
              <span class="second-line small soft">
                {line.limit.source}. {line.limit.doubt}
              </span>
            </td>
            {line.time.known ? (
              <>
                <td class="number" data-label="Outside">
                  {percent(line.time.value.outsideShare)}
                </td>
                <td class="number" data-label="Inside">
                  {percent(line.time.value.insideShare)}
                </td>
                <td class="number" data-label="Not known">
                  {percent(line.time.value.unknownShare)}
                </td>
                <td data-label="Longest time outside">
                  {line.time.value.longest
                    ? `at least ${durationInWords(line.time.value.longest.seconds)}, from ${dayInIso(line.time.value.longest.fromSeconds)}`
                    : "never seen outside"}
                </td>
              </>
            ) : (
              <td colspan={4}>{line.time.reason}</td>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);

/** The other figures, each with where it is from, or with why it is missing. */
export const ClimateFigures = ({ climate }: { climate: PlaceClimate }) => (
  <dl class="facts climate-facts">
    <Line name="Time with readings">{percent(climate.coveredShare)} of this stretch. The rest is not known, and not counted as good.</Line>
    <Line name="In a day">
      <Told figure={climate.dailyTemperature} say={(swing) => dailyInWords(swing, "°C")} />
      <Told figure={climate.dailyHumidity} say={(swing) => dailyInWords(swing, "% relative humidity")} />
    </Line>
    <Line name="In a year">
      <Told figure={climate.seasonalTemperature} say={(swing) => seasonalInWords(swing, "°C")} />
      <Told figure={climate.seasonalHumidity} say={(swing) => seasonalInWords(swing, "% relative humidity")} />
    </Line>
    <Line name="Chemical ageing">
      <Told figure={climate.rate} say={rateInWords} />
      <p class="small soft">
        Mean of the rate over the time with readings, activation energy {RATE_BASIS.activationEnergyJPerMol / 1000} kJ/mol, rate growing
        with the power {RATE_BASIS.humidityPower} of the humidity, against a steady {RATE_BASIS.referenceC} °C and{" "}
        {RATE_BASIS.referencePercent} %. {RATE_BASIS.source}. A figure for unstable dyes and papers as a whole, not for one print.
      </p>
    </Line>
    <Line name="Mould">
      <Told
        figure={climate.mould}
        say={({ riskDays, longestRun, toldDays }) =>
          riskDays === 0
            ? `On none of ${toldDays} days was it damp enough for mould.`
            : `On ${riskDays} of ${toldDays} days it was damp enough for mould, at most ${longestRun} one after another. Look at the prints.`
        }
      />
      <p class="small soft">
        Days whose mean humidity reached what mould on wood needs at that temperature. {MOULD_SOURCE}, formula from memory.
      </p>
    </Line>
  </dl>
);

const Line = ({ name, children }: { name: string; children?: Child }) => (
  <>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </>
);

const Told = <T,>({ figure, say }: { figure: Figure<T>; say: (value: T) => string }) =>
  figure.known ? <p>{say(figure.value)}</p> : <p class="soft">Not known: {figure.reason}</p>;

const dailyInWords = ({ median, largest, largestOnSeconds, dayCount }: DailySwing, unit: string): string =>
  `${median.toFixed(1)} ${unit} on the middle day of ${dayCount}; at most ${largest.toFixed(1)}, on ${dayInIso(largestOnSeconds)}.`;

const MONTHS = new Intl.DateTimeFormat("en-GB", { month: "long", timeZone: "UTC" });
const month = (number: number): string => MONTHS.format(new Date(Date.UTC(2000, number - 1, 1)));

const seasonalInWords = ({ swing, leastMonth, mostMonth }: SeasonalSwing, unit: string): string =>
  `${swing.toFixed(1)} ${unit} between the mean of ${month(leastMonth)} and that of ${month(mostMonth)}.`;

function rateInWords({ byTemperature, byBoth, steadyC, coveredDays }: ReactionRate): string {
  const both = byBoth === null ? "too little is known of the humidity to count it in" : `${byBoth.toFixed(2)} times with the humidity`;
  return `${byTemperature.toFixed(2)} times as fast by temperature alone, as in a steady ${steadyC.toFixed(1)} °C; ${both}. From ${Math.round(coveredDays)} days of readings.`;
}

/** A share that is not nought never shows as nought, nor one that is not whole as whole. */
export function percent(share: number): string {
  if (share > 0 && share < 0.001) return "under 0.1 %";
  if (share < 1 && share > 0.999) return "over 99.9 %";
  return `${(share * 100).toFixed(share > 0 && share < 0.1 ? 1 : 0)} %`;
}
