import type { AimLimit } from "#domain/aim/aim.ts";
import { boundInWords, valueInWords } from "#domain/aim/measure-words.ts";
import { TARGET_MEASURES } from "#domain/aim/target-measures.ts";
import { dateInWords } from "#domain/print/date.ts";
import type { FramePart } from "#domain/target/corner-figures.ts";
import type { KeptTargetRead } from "#domain/target/kept-read.ts";
import { type LimitStanding, standingsOf } from "#domain/target/passed.ts";
import { PublishedLevels } from "./published-levels.tsx";
import { SfrPlot } from "./sfr-plot.tsx";

export type ShownTargetCheck = {
  readonly id: number;
  readonly setUpId: number;
  readonly takenOn: string;
  readonly targetName: string;
  /** a plain sheet that tells evenness alone */
  readonly isEvenSheet: boolean;
  readonly fileName: string;
  readonly referenceName: string | null;
  readonly note: string | null;
  readonly read: KeptTargetRead;
};

/** Everything that one check tells: its figures against what is asked, its edges and patches, and the published levels. */
export function CheckResults({ check, limits }: { check: ShownTargetCheck; limits: readonly AimLimit[] }) {
  const { read } = check;
  const standings = standingsOf(read.readings, limits);
  const missed = standings.filter(({ state }) => state === "missed").length;
  const open = standings.filter(({ state }) => state === "not shown").length;
  const curves = read.edges.flatMap(({ id, curve }) => (curve ? [{ label: id, ...curve }] : []));
  return (
    <>
      <section class="card" aria-labelledby="latest-title">
        <h2 id="latest-title">
          {dateInWords(check.takenOn)}: {verdict(missed, open, standings.length)}
        </h2>
        <p>
          {check.targetName}, {check.fileName}
          {check.referenceName ? `, held against ${check.referenceName}` : ", without reference values"}.
          {read.ppi ? ` Sampling ${Math.round(read.ppi.x)} × ${Math.round(read.ppi.y)} ppi.` : ""}
        </p>
        <section class="table-frame" aria-label="What the check proves" tabindex={0}>
          <table class="table check-table">
            <thead>
              <tr>
                <th scope="col">Figure</th>
                <th scope="col">Read</th>
                <th scope="col">Asked of preservation masters</th>
                <th scope="col">Meaning</th>
              </tr>
            </thead>
            <tbody>
              {read.readings.map((reading) => (
                <tr>
                  <th scope="row">{TARGET_MEASURES[reading.name].label}</th>
                  <td>
                    {"value" in reading ? (
                      boundInWords(reading.name, reading.value, reading.bound ?? null)
                    ) : (
                      <span class="soft">Not read: {reading.absent}.</span>
                    )}
                    {"note" in reading && reading.note ? <span class="second-line">{reading.note}</span> : null}
                  </td>
                  <td>{askedInWords(standings.find(({ limit }) => limit.measure === reading.name))}</td>
                  <td class="small soft">{TARGET_MEASURES[reading.name].meaning}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
        {curves.length > 0 ? <SfrPlot curves={curves} /> : null}
        {read.edges.length > 0 ? <Edges read={read} /> : null}
        {read.patches.some(({ deltaE }) => deltaE !== null) ? <Patches read={read} /> : null}
      </section>
      <PublishedLevels readings={[]} check={{ setUpId: check.setUpId, takenOn: check.takenOn, readings: read.readings }} />
    </>
  );
}

function verdict(missed: number, open: number, all: number): string {
  if (missed > 0) return `${missed} of ${all} figures miss what is asked`;
  return open > 0 ? `nothing is missed, and ${open} of ${all} figures are not shown` : "all that is asked is met";
}

function askedInWords(standing: LimitStanding | undefined): string {
  if (!standing) return "nothing";
  const { limit, state } = standing;
  const ends = [
    ...(limit.requiredAtLeast === null ? [] : [`at least ${valueInWords(limit.measure, limit.requiredAtLeast)}`]),
    ...(limit.requiredAtMost === null ? [] : [`at most ${valueInWords(limit.measure, limit.requiredAtMost)}`]),
  ].join(", ");
  return `${ends}: ${state}`;
}

function Edges({ read }: { read: KeptTargetRead }) {
  const inWords = (frequency: number | null) => (frequency === null ? "finer than is told" : frequency.toFixed(2));
  return (
    <details>
      <summary>Edges, each with its place in the frame</summary>
      <section class="table-frame" aria-label="Edges" tabindex={0}>
        <table class="table">
          <thead>
            <tr>
              <th scope="col">Edge</th>
              <th scope="col">Place in the frame</th>
              <th scope="col">Read</th>
              <th scope="col">SFR 50 %, cy/mm</th>
              <th scope="col">SFR 10 %, cy/mm</th>
            </tr>
          </thead>
          <tbody>
            {read.edges.map(({ id, part, direction, refused, sfr50CyPerMm, sfr10CyPerMm }) => (
              <tr>
                <th scope="row">{id}</th>
                <td>{part === undefined ? "not kept" : PART_WORDS[part]}</td>
                <td>{direction}</td>
                {refused === null ? (
                  <>
                    <td>{inWords(sfr50CyPerMm)}</td>
                    <td>{inWords(sfr10CyPerMm)}</td>
                  </>
                ) : (
                  <td colspan={2} class="soft">
                    Not read: {refused}.
                  </td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </details>
  );
}

const PART_WORDS: Readonly<Record<FramePart, string>> = {
  "top left": "top left corner",
  "top right": "top right corner",
  "bottom right": "bottom right corner",
  "bottom left": "bottom left corner",
  middle: "middle",
  between: "between middle and corners",
};

function Patches({ read }: { read: KeptTargetRead }) {
  const inOrder = read.patches.filter(({ deltaE }) => deltaE !== null).toSorted((a, b) => (b.deltaE ?? 0) - (a.deltaE ?? 0));
  return (
    <details>
      <summary>Patches, the farthest off first</summary>
      <section class="table-frame" aria-label="Patches" tabindex={0}>
        <table class="table">
          <thead>
            <tr>
              <th scope="col">Patch</th>
              <th scope="col">Should be L*, a*, b*</th>
              <th scope="col">Read</th>
              <th scope="col">ΔE2000</th>
            </tr>
          </thead>
          <tbody>
            {inOrder.map(({ id, truth, colour, deltaE }) => (
              <tr>
                <th scope="row">{id}</th>
                <td>{truth ? labInWords(truth) : ""}</td>
                <td>{labInWords(colour)}</td>
                <td>{deltaE?.toFixed(1)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </details>
  );
}

const labInWords = (colour: readonly number[]): string => colour.map((value) => value.toFixed(1).replace("-", "−")).join(", ");
