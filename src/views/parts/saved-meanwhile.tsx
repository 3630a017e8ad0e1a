import type { Child } from "hono/jsx";
import type { Typed } from "./field.tsx";
import { Notice } from "./notice.tsx";

/** A field in which what another person saved differs from what was typed. */
export type Difference = { readonly name: string; readonly saved: string; readonly typed: string };

/** The fields in which what is saved differs from what was typed, in the order of the form. */
export function differences(labels: Readonly<Record<string, string>>, saved: Typed, typed: Typed): Difference[] {
  return Object.keys(labels)
    .map((name) => ({ name, saved: saved[name] ?? "", typed: (typed[name] ?? "").trim() }))
    .filter((field) => field.saved.trim() !== field.typed);
}

/**
 * Two people changed the same record: both texts are shown, and the second decides.
 * @param inWords how a field's value is said, where the text alone says too little
 */
export function SavedMeanwhile(props: {
  differences: readonly Difference[];
  labels: Readonly<Record<string, string>>;
  inWords?: (name: string, value: string) => Child;
}) {
  if (props.differences.length === 0) return null;
  const said = (name: string, value: string) => (value === "" ? <span class="soft">empty</span> : (props.inWords?.(name, value) ?? value));
  return (
    <Notice level="warning" title="What the other person saved">
      <p>The fields below hold your text. Take over by hand what should stay from the other, then save: that keeps what the fields show.</p>
      <div class="table-frame">
        <table class="table">
          <thead>
            <tr>
              <th scope="col">Field</th>
              <th scope="col">Saved meanwhile</th>
              <th scope="col">Yours</th>
            </tr>
          </thead>
          <tbody>
            {props.differences.map(({ name, saved, typed }) => (
              <tr>
                <th scope="row">{props.labels[name] ?? name}</th>
                <td class="as-typed">{said(name, saved)}</td>
                <td class="as-typed">{said(name, typed)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </Notice>
  );
}
