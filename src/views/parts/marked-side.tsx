import type { Side } from "#domain/capture/capture.ts";
import type { MarkedRegion } from "#domain/condition/marked-region.ts";

/** A side that can be shown straightened, with the size of its sheet. */
export type ShownSidePicture = {
  readonly side: Side;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** the capture it was made from */
  readonly captureName: string;
};

export type NumberedMark = { readonly number: number; readonly regions: readonly MarkedRegion[] };

type MarkedSideProps = {
  printId: number;
  shown: ShownSidePicture;
  marks: readonly NumberedMark[];
  /** what the numbers stand for is said beside the picture */
  alt: string;
  hasRuler?: boolean;
  /** below it, in place of side, size and capture */
  words?: string;
};

/** One side on its own mm grid, with the marked places numbered over it. */
export function MarkedSide({ printId, shown, marks, alt, hasRuler = false, words }: MarkedSideProps) {
  const { side, widthMm, heightMm } = shown;
  return (
    <figure class="marked-side" data-marked-side={side} data-width-mm={widthMm} data-height-mm={heightMm}>
      <div class="marked-side-picture">
        <img src={`/prints/${printId}/sides/${side}.jpg`} alt={alt} width={shown.widthPx} height={shown.heightPx} />
        <svg class="marked-overlay" viewBox={`0 0 ${widthMm} ${heightMm}`} aria-hidden="true">
          {hasRuler ? <Ruler widthMm={widthMm} heightMm={heightMm} /> : null}
          {marks.map(({ number, regions }) => regions.map((region) => <Mark region={region} number={number} of={shown} />))}
        </svg>
      </div>
      <figcaption class="small">
        {words ?? `${side === "front" ? "Front" : "Back"}, ${widthMm} × ${heightMm} mm, straightened from ${shown.captureName}`}
        {hasRuler ? ". The short lines stand 10 mm apart" : ""}
      </figcaption>
    </figure>
  );
}

function Mark({ region, number, of }: { region: MarkedRegion; number: number; of: ShownSidePicture }) {
  const points = region.map(({ xMm, yMm }) => `${xMm},${yMm}`).join(" ");
  const radius = Math.max(of.widthMm, of.heightMm) / 42;
  // the number stands at the upper left corner of the region, within the sheet
  const within = (at: number, size: number) => Math.min(size - radius, Math.max(radius, at));
  const x = within(Math.min(...region.map(({ xMm }) => xMm)), of.widthMm);
  const y = within(Math.min(...region.map(({ yMm }) => yMm)), of.heightMm);
  return (
    <g>
      <polygon class="mark-halo" points={points} vector-effect="non-scaling-stroke" />
      <polygon class="mark-line" points={points} vector-effect="non-scaling-stroke" />
      <circle class="mark-disc" cx={x} cy={y} r={radius} />
      <text class="mark-number" x={x} y={y} font-size={radius * 1.3} text-anchor="middle" dominant-baseline="central">
        {number}
      </text>
    </g>
  );
}

const EVERY_MM = 10;

function Ruler({ widthMm, heightMm }: { widthMm: number; heightMm: number }) {
  const size = Math.max(widthMm, heightMm) / 45;
  const steps = (lengthMm: number) => Array.from({ length: Math.ceil(lengthMm / EVERY_MM) - 1 }, (_, index) => (index + 1) * EVERY_MM);
  // numbers must not run into each other on a large sheet
  const isNamed = (mm: number) => mm % (Math.max(widthMm, heightMm) > 200 ? 50 : 20) === 0;
  return (
    <g class="mark-ruler" font-size={size}>
      {steps(widthMm).map((mm) => (
        <>
          <line x1={mm} y1={0} x2={mm} y2={size * 0.8} vector-effect="non-scaling-stroke" />
          {isNamed(mm) ? (
            <text x={mm} y={size * 1.9} text-anchor="middle">
              {mm}
            </text>
          ) : null}
        </>
      ))}
      {steps(heightMm).map((mm) => (
        <>
          <line x1={0} y1={mm} x2={size * 0.8} y2={mm} vector-effect="non-scaling-stroke" />
          {isNamed(mm) ? (
            <text x={size} y={mm} dominant-baseline="central">
              {mm}
            </text>
          ) : null}
        </>
      ))}
    </g>
  );
}
