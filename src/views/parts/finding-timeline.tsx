import type { DatedFinding, FindingLife } from "#domain/condition/finding.ts";
import { lookInWords, termInWords } from "#domain/condition/finding-in-words.ts";
import { dateInWords } from "#domain/print/date.ts";

/** One thing found through the surveys: drawn as levels over time, and said in words, newest first. */
export function FindingTimeline({ life }: { life: FindingLife }) {
  return (
    <div class="finding-timeline">
      {life.length > 1 ? <TimelinePlot life={life} /> : null}
      <ol class="finding-life" aria-label={`${termInWords(life[life.length - 1] ?? life[0])} through the surveys`}>
        {life.toReversed().map((finding) => (
          <li>
            <span class="finding-day">{dateInWords(finding.surveyedOn)}</span> {lookInWords(finding)}
            {finding.lookedAtBy && wasLookedAt(finding) ? <span class="soft"> ({finding.lookedAtBy})</span> : null}
          </li>
        ))}
      </ol>
    </div>
  );
}

const WIDTH = 240;
const HEIGHT = 66;
const LEFT = 18;
const RIGHT = 10;
const TOP = 7;
const LEVEL = 10;
/** Two looks in one month still stand apart. */
const LEAST_STEP = 9;

/** Severity 0 to 4 against time; the words beside it say the same. */
function TimelinePlot({ life }: { life: FindingLife }) {
  const xs = placesInTime(life);
  const at = life.map((finding, index) => ({ finding, x: xs[index] ?? LEFT, y: TOP + (4 - finding.severity) * LEVEL }));
  const [first, last] = [at[0], at[at.length - 1]];
  if (!first || !last) return null;
  // a level holds until somebody saw another
  const path = at.map(({ x, y }, index) => (index === 0 ? `M${x},${y}` : `H${x}V${y}`)).join("");
  return (
    <svg class="timeline-plot" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      {[0, 1, 2, 3, 4].map((level) => (
        <g>
          <line class="timeline-rule" x1={LEFT} x2={WIDTH - RIGHT} y1={TOP + (4 - level) * LEVEL} y2={TOP + (4 - level) * LEVEL} />
          {level % 2 === 0 ? (
            <text x={LEFT - 6} y={TOP + (4 - level) * LEVEL} text-anchor="end" dominant-baseline="central">
              {level}
            </text>
          ) : null}
        </g>
      ))}
      <path class="timeline-line" d={path} />
      {at.map(({ finding, x, y }) => (
        <circle class={wasLookedAt(finding) ? "timeline-seen" : "timeline-carried"} cx={x} cy={y} r={3} />
      ))}
      <text x={LEFT} y={HEIGHT - 3}>
        {first.finding.surveyedOn.slice(0, 4)}
      </text>
      {last.finding.surveyedOn.slice(0, 4) === first.finding.surveyedOn.slice(0, 4) ? null : (
        <text x={WIDTH - RIGHT} y={HEIGHT - 3} text-anchor="end">
          {last.finding.surveyedOn.slice(0, 4)}
        </text>
      )}
    </svg>
  );
}

function placesInTime(life: FindingLife): number[] {
  const days = life.map(({ surveyedOn }) => Date.parse(surveyedOn));
  const [from, to] = [Math.min(...days), Math.max(...days)];
  const width = WIDTH - LEFT - RIGHT;
  const even = width / Math.max(1, life.length - 1);
  const step = Math.min(LEAST_STEP, even);
  const free = width - step * (life.length - 1);
  // each step has its least width, and what is left over is shared out by time
  return days.map((day, index) => LEFT + step * index + (to > from ? (free * (day - from)) / (to - from) : 0));
}

const wasLookedAt = ({ change, earlierFindingId }: DatedFinding) => change !== null || earlierFindingId === null;
