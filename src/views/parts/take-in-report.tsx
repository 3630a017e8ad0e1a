import type { Refusal } from "#domain/outcome.ts";

/** What became of one file of the lot. */
export type FileReport =
  | {
      readonly name: string;
      readonly state: "taken-in" | "already-held";
      readonly captureId: number;
      readonly print: { readonly id: number; readonly objectNumber: string } | null;
      /** what the keeper should know of it, e.g. that its settings could not be read */
      readonly notes: readonly string[];
    }
  | { readonly name: string; readonly state: "refused"; readonly refusals: readonly Refusal[] };

/** Every file that was sent, with where it went or why not and what to do. */
export const TakeInReport = ({ report }: { report: readonly FileReport[] }) => (
  <section class="card" aria-labelledby="report-title">
    <div role="status">
      <h2 id="report-title">{summary(report)}</h2>
    </div>
    <ul class="report-files">
      {report.map((file) => (
        <li class={`report-file report-${file.state}`}>
          {file.state === "refused" ? <Refused name={file.name} refusals={file.refusals} /> : <Taken file={file} />}
        </li>
      ))}
    </ul>
  </section>
);

const Refused = ({ name, refusals }: { name: string; refusals: readonly Refusal[] }) => (
  <>
    <strong>{name}</strong> was refused.
    {refusals.map((refusal) => (
      <p>
        {refusal.happened} {refusal.remedy}
      </p>
    ))}
  </>
);

const Taken = ({ file }: { file: Extract<FileReport, { captureId: number }> }) => (
  <>
    <a href={`/captures/${file.captureId}`}>{file.name}</a> {file.state === "already-held" ? "belongs to " : "was taken in for "}
    {file.print ? (
      <a href={`/prints/${file.print.id}`}>{file.print.objectNumber}</a>
    ) : (
      <a href={`/tray?capture=${file.captureId}#capture-${file.captureId}`}>the tray</a>
    )}
    .
    {file.notes.map((note) => (
      <p class="hint">{note}</p>
    ))}
  </>
);

function summary(report: readonly FileReport[]): string {
  if (report.length === 0) return "No file was chosen";
  const count = (state: FileReport["state"]) => report.filter((file) => file.state === state).length;
  const [held, refused] = [count("already-held"), count("refused")];
  return [
    `${count("taken-in")} taken in`,
    ...(held > 0 ? [`${held} already here`] : []),
    ...(refused > 0 ? [`${refused} refused`] : []),
  ].join(", ");
}
