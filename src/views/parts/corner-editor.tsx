import { AXIS_LABELS, CORNER_LABELS, CORNERS, cornerField, cornerNumber } from "#domain/capture/corner-fields.ts";
import type { Refusal } from "#domain/outcome.ts";
import type { Typed } from "./field.tsx";
import { Refusals } from "./refusals.tsx";

type PartProps = { of: string | number; part: number; typed: Typed; refusals: readonly Refusal[]; isOpen?: boolean; title?: string };

/**
 * The corners of one part as number fields. With a script its corners are dragged over the picture and written here
 * (client/corners.js); without one they are typed.
 * @param of tells the fields of several pictures on a page apart
 */
export function CornerFields({ of, part, typed, refusals, isOpen, title }: PartProps) {
  const own = refusals.filter(({ about }) => about === `part${part}-corners`);
  const refusedId = `${of}-part${part}-refused`;
  return (
    <details class="corner-fields" data-part={String(part)} open={isOpen || own.length > 0}>
      <summary>{title ?? `Corners of part ${part}, in pixels`}</summary>
      <div id={refusedId}>
        <Refusals refusals={own} />
      </div>
      {CORNERS.map((corner) => (
        <fieldset aria-describedby={own.length > 0 ? refusedId : undefined}>
          <legend>{CORNER_LABELS[corner]}</legend>
          {(["x", "y"] as const).map((axis) => {
            const name = cornerField(part, corner, axis);
            return (
              <label>
                <span>{AXIS_LABELS[axis]}</span>
                <input
                  type="text"
                  inputmode="decimal"
                  id={`${of}-${name}`}
                  name={name}
                  value={typed[name] ?? ""}
                  aria-invalid={own.length > 0 && Number.isNaN(cornerNumber(typed[name])) ? "true" : undefined}
                  maxlength={10}
                  autocomplete="off"
                  data-corner={corner}
                  data-axis={axis}
                />
              </label>
            );
          })}
        </fieldset>
      ))}
    </details>
  );
}
