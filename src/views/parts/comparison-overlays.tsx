import type { LookedAt } from "./comparison-panes.tsx";
import { OVERLAY_LABELS, type OverlayId, type ShownOverlay, Swatch } from "./overlays.tsx";

const IDS = Object.keys(OVERLAY_LABELS) as OverlayId[];

/**
 * Switches for what the measures draw over the captures, with what was read of each, in words. They work without a script: the style
 * sheet looks at the boxes.
 * @param drawn those that are on
 */
export function ComparisonOverlays({ looked, drawn }: { looked: readonly LookedAt[]; drawn: readonly string[] }) {
  const layers = IDS.map((id) => ({ id, shown: looked.flatMap((each) => shownOf(each, id)) })).filter(({ shown }) => shown.length > 0);
  const drawable = layers.filter(({ shown }) => shown.some(({ overlay }) => overlay.drawing !== null));
  const others = layers.filter((layer) => !drawable.includes(layer));
  if (layers.length === 0) return null;
  return (
    <details class="comparison-overlays" open={drawn.length > 0}>
      <summary>Draw what was measured over the captures</summary>
      <fieldset class="overlay-legend">
        <legend class="visually-hidden">Drawn over the captures</legend>
        <label class="check">
          <input type="checkbox" id="layer-any" checked autocomplete="off" /> All that is chosen here <kbd>l</kbd>
        </label>
        <ul>
          {drawable.map(({ id, shown }) => (
            <li>
              <label class="check" for={`layer-${id}`}>
                <input
                  type="checkbox"
                  id={`layer-${id}`}
                  data-layer={id}
                  checked={drawn.includes(id)}
                  autocomplete="off"
                  aria-describedby={`layer-${id}-words`}
                />
                {shown.map(({ overlay }) => overlay).find(({ drawing }) => drawing !== null) ? (
                  <Swatch overlay={shown.map(({ overlay }) => overlay).find(({ drawing }) => drawing !== null) as ShownOverlay} />
                ) : null}
                {OVERLAY_LABELS[id]}
              </label>
              <Words id={id} shown={shown} />
            </li>
          ))}
        </ul>
        {others.length > 0 ? (
          <details>
            <summary>Nothing to draw: {others.map(({ id }) => OVERLAY_LABELS[id].toLowerCase()).join(", ")}</summary>
            <ul>
              {others.map(({ id, shown }) => (
                <li>
                  <span class="overlay-none">{OVERLAY_LABELS[id]}</span>
                  <Words id={id} shown={shown} />
                </li>
              ))}
            </ul>
          </details>
        ) : null}
      </fieldset>
    </details>
  );
}

type Shown = { readonly number: number; readonly overlay: ShownOverlay };

const shownOf = ({ number, overlays }: LookedAt, id: OverlayId): Shown[] =>
  overlays.filter((overlay) => overlay.id === id).map((overlay) => ({ number, overlay }));

/** Captures of which the same is said are told together. */
function Words({ id, shown }: { id: OverlayId; shown: readonly Shown[] }) {
  const words = [...new Set(shown.map(({ overlay }) => overlay.words))];
  return (
    <ul class="comparison-words small" id={`layer-${id}-words`}>
      {words.map((each) => (
        <li>
          <b>
            {shown
              .filter(({ overlay }) => overlay.words === each)
              .map(({ number }) => number)
              .join(", ")}
          </b>{" "}
          {each}
        </li>
      ))}
    </ul>
  );
}
