import { durationInWords, HELD_PROBLEMS, type ImportReport } from "#domain/storage/climate/import-report.ts";
import { counted } from "../format/counted.ts";
import { utcMinute } from "../format/utc-minute.ts";

/** What became of a file's rows, those left out named by their numbers. */
export const ImportReportView = ({ report }: { report: ImportReport }) => (
  <>
    <p>
      {counted(report.kept, "reading", "readings")} from {counted(report.rows, "row", "rows")} kept, from {utcMinute(report.firstSeconds)}{" "}
      to {utcMinute(report.lastSeconds)} (UTC)
      {report.usualStepSeconds === null ? "" : `, usually one every ${durationInWords(report.usualStepSeconds)}`}.
    </p>
    {report.problems.map(({ problem, count, named }) => (
      <details>
        <summary>
          {HELD_PROBLEMS[problem]} ({counted(count, "row", "rows")})
        </summary>
        <ul>
          {named.map(({ row, text }) => (
            <li>
              Row {row}: <span class="as-typed">{text}</span>
            </li>
          ))}
          {count > named.length ? <li>and {counted(count - named.length, "other", "others")}</li> : null}
        </ul>
      </details>
    ))}
    {report.gapCount === 0 ? (
      <p>No gaps.</p>
    ) : (
      <details>
        <summary>
          {counted(report.gapCount, "gap", "gaps")}, the longest {durationInWords(report.longestGapSeconds)}
        </summary>
        <ul>
          {report.gaps.map((gap) => (
            <li>
              Between rows {gap.afterRow} and {gap.beforeRow}: {durationInWords(gap.seconds)} from {utcMinute(gap.fromSeconds)}
            </li>
          ))}
          {report.gapCount > report.gaps.length ? (
            <li>and {counted(report.gapCount - report.gaps.length, "shorter one", "shorter ones")}</li>
          ) : null}
        </ul>
      </details>
    )}
  </>
);

/** A report as the database keeps it; null for readings that were typed. */
export const isReport = (kept: Readonly<Record<string, unknown>>): kept is ImportReport =>
  typeof kept.kept === "number" && Array.isArray(kept.problems);
