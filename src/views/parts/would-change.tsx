import { counted } from "../format/counted.ts";

export type ShownChanges = {
  readonly sides: number;
  readonly another: number;
  readonly lost: number;
  readonly gained: number;
  readonly byHand: number;
  readonly first: readonly {
    readonly printId: number;
    readonly objectNumber: string;
    readonly title: string;
    readonly side: "front" | "back";
    readonly before: string | null;
    readonly after: string | null;
  }[];
};

/** Which masters would be others, before anything is saved. `unread`: what was typed cannot be understood yet. */
export function WouldChange({ changes, unread = false }: { changes: ShownChanges | null; unread?: boolean }) {
  return (
    <section class="card would-change" id="would-change" aria-labelledby="would-change-title" aria-live="polite">
      <h2 id="would-change-title">What would change</h2>
      {unread ? (
        <p>A figure cannot be read yet, so nothing can be foretold.</p>
      ) : changes === null ? (
        <p class="soft">Change a figure, and here stands how many masters would be others. Nothing is saved by looking.</p>
      ) : (
        <Changes changes={changes} />
      )}
    </section>
  );
}

/** So that nobody takes “none” for a figure that was not read. */
function whyNothing(sides: number, byHand: number): string {
  if (sides === 0) return "No print has a capture yet, so there is nothing to choose from.";
  if (byHand === sides) return "All of them were chosen by hand, and stand whatever the aim says.";
  return "The figures were tried on every capture: by them, too, the same captures lead, and the same ones are good enough. A change shows where a limit passes what a leading capture reads, or where a weight turns a lead.";
}

function Changes({ changes }: { changes: ShownChanges }) {
  const { sides, another, lost, gained, byHand, first } = changes;
  const all = another + lost + gained;
  return (
    <>
      <p class="would-change-sum">
        {all === 0
          ? `None of ${counted(sides, "choice", "choices")} would change.`
          : `${all} of ${counted(sides, "choice", "choices")} would change.`}
      </p>
      {all === 0 ? <p>{whyNothing(sides, byHand)}</p> : null}
      {all > 0 ? (
        <ul>
          {another > 0 ? <li>{counted(another, "master would be another capture", "masters would be other captures")}</li> : null}
          {lost > 0 ? <li>{counted(lost, "side would have no master any more", "sides would have no master any more")}</li> : null}
          {gained > 0 ? <li>{counted(gained, "side without a master would have one", "sides without a master would have one")}</li> : null}
        </ul>
      ) : null}
      {byHand > 0 ? (
        <p class="small soft">{counted(byHand, "master chosen by hand stands", "masters chosen by hand stand")} whatever the aim says.</p>
      ) : null}
      {first.length > 0 ? (
        <ul class="would-change-list">
          {first.map(({ printId, objectNumber, title, side, before, after }) => (
            <li>
              <a href={`/prints/${printId}`}>
                <span class="object-number">{objectNumber}</span> {title}
              </a>
              {side === "back" ? ", back" : ""}
              <span class="second-line">Now: {before ?? "none is good enough"}</span>
              <span class="second-line">Then: {after ?? "none is good enough"}</span>
            </li>
          ))}
        </ul>
      ) : null}
      {all > first.length ? <p class="small soft">And {all - first.length} more.</p> : null}
    </>
  );
}
