import type { Canvas } from "#domain/comparison/canvas.ts";
import type { LaidCapture, LaidSide } from "#domain/comparison/laid-side.ts";
import type { ShownCapture } from "./capture-card.tsx";
import { methodInWords } from "./capture-card.tsx";
import type { Plotted } from "./comparison-plots.tsx";
import { FileName } from "./file-name.tsx";
import { Overlays, type ShownOverlay } from "./overlays.tsx";

/** A capture that is looked at beside others: numbered from 1, as it is called on the page. */
export type LookedAt = {
  readonly number: number;
  readonly capture: ShownCapture;
  readonly laid: LaidCapture;
  /** where its pictures are */
  readonly pictures: string;
  readonly tiles: {
    readonly sizePx: number;
    readonly overlapPx: number;
    readonly finest: number;
    readonly coarsest: number;
    readonly widthPx: number;
    readonly heightPx: number;
  };
  readonly masterFor: readonly string[];
  /** what its measures draw over it, on the canvas */
  readonly overlays: readonly ShownOverlay[];
  readonly plotted: Plotted;
};

/**
 * The captures side by side, every one at the same scale and the same place. client/comparison.js makes them zoom, flip and wipe;
 * without it they stand as they are.
 * @param unitsPerMm of what is drawn over them
 */
export function ComparisonPanes(props: { laid: LaidSide; looked: readonly LookedAt[]; unitsPerMm: number }) {
  const { laid, looked, unitsPerMm } = props;
  const { canvas } = laid;
  const shape = canvas.widthMm > canvas.heightMm ? "wide" : "high";
  return (
    <div class={`comparison-stage comparison-${shape}`} data-view="beside" data-count={looked.length} id="stage">
      {looked.map((each) => (
        <Pane each={each} canvas={canvas} unitsPerMm={unitsPerMm} />
      ))}
    </div>
  );
}

const Pane = ({ each, canvas, unitsPerMm }: { each: LookedAt; canvas: Canvas; unitsPerMm: number }) => (
  <figure class="comparison-pane" data-number={each.number}>
    <div class="comparison-picture">
      <img
        src={`${each.pictures}/whole.jpg`}
        width={Math.round(canvas.widthMm * 10)}
        height={Math.round(canvas.heightMm * 10)}
        alt={`Capture ${each.number}, ${each.capture.name}, laid on the print's own millimetres`}
      />
      <Overlays
        widthPx={canvas.widthMm * unitsPerMm}
        heightPx={canvas.heightMm * unitsPerMm}
        overlays={each.overlays}
        on={`capture-${each.number}`}
      />
    </div>
    <figcaption>
      <b class="comparison-number">{each.number}</b>
      <span>
        <a href={`/captures/${each.capture.id}`}>
          <FileName name={each.capture.name} />
        </a>
        <span class="second-line">
          {methodInWords(each.capture)}, up to {Math.round(each.laid.ownPxPerMm * 25.4)} ppi
          {each.masterFor.length > 0 ? `. Master: ${each.masterFor.join(", ")}` : ""}
        </span>
      </span>
    </figcaption>
  </figure>
);

/** How exactly they lie on each other, one line a capture. */
export function LaidHow({ laid, looked }: { laid: LaidSide; looked: readonly LookedAt[] }) {
  const nameOf = (captureId: number) => {
    const found = looked.find(({ capture }) => capture.id === captureId);
    return found ? `capture ${found.number}` : "a capture that is not shown";
  };
  return (
    <ul class="comparison-laid">
      {looked.map(({ number, laid: each }) => (
        <li>
          <b>{number}</b> {laidInWords(each, nameOf(laid.referenceId))}
          {each.pxPerMm < 0.98 * each.ownPxPerMm
            ? ` It is shown at ${Math.round(each.pxPerMm * 25.4)} ppi, coarser than it is: so many pixels are not held.`
            : ""}
        </li>
      ))}
    </ul>
  );
}

function laidInWords({ laidBy, why, residualMm, residual95Mm }: LaidCapture, reference: string): string {
  const mm = (value: number) => `${Math.max(0.01, value).toFixed(2)} mm`;
  if (laidBy === "reference") return "is what the others are laid on: its corners are the corners of the print here.";
  if (laidBy === "detail" && residualMm !== null && residual95Mm !== null)
    return `lies on ${reference} within ${mm(residualMm)} on half of the picture, within ${mm(residual95Mm)} on 95 % of it.`;
  if (laidBy === "coarse" && residualMm !== null)
    return `lies on ${reference} roughly, within about ${mm(residualMm)}: ${why ?? "its detail could not be followed"}.`;
  return `is laid by its own corners alone, so that it may be off by some tenths of a millimetre: ${why ?? "it could not be lined up"}.`;
}
