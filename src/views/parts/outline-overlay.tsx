import type { Point, Quad } from "#domain/measure/picture.ts";
import type { Outline } from "#domain/measure/reading.ts";

/** A print's outline as far as it is drawn. */
export type ShownOutline = Pick<Outline, "sheet" | "image" | "sides">;

/** Where prints were found, drawn over their capture in the capture's own pixels. Numbered where there are several to tell apart. */
export function OutlineOverlay(props: { widthPx: number; heightPx: number; outlines: readonly ShownOutline[] }) {
  const { widthPx, heightPx, outlines } = props;
  // pixel centres have whole coordinates, so the frame itself begins half a pixel earlier
  return (
    <svg class="outline-overlay" viewBox={`-0.5 -0.5 ${widthPx} ${heightPx}`} preserveAspectRatio="none" aria-hidden="true">
      {outlines.map((outline, index) => (
        <g>
          <SheetSides outline={outline} />
          {outline.image ? (
            <polygon class="outline-image" points={cornersInWords(outline.image)} vector-effect="non-scaling-stroke" />
          ) : null}
          {outlines.length > 1 ? (
            <PartNumber number={index + 1} at={middleOf(outline.sheet)} radius={Math.min(widthPx, heightPx) / 14} />
          ) : null}
        </g>
      ))}
    </svg>
  );
}

/** What the lines mean; stands below the picture because the kind of line alone must not say it. */
export function OutlineLegend({ outlines }: { outlines: readonly ShownOutline[] }) {
  if (outlines.length === 0) return <p class="hint">The print's outline was not found in this capture.</p>;
  const states = new Set(outlines.flatMap((outline) => Object.values(outline.sides)));
  return (
    <p class="hint">
      {outlines.length > 1
        ? "The lines show the sheets as they were found, each with its number."
        : "The lines show the sheet as it was found."}
      {states.has("assumed") ? " Dashed: not sure, because it is assumed or its edge may be something else's." : ""}
      {states.has("cut-off") ? " Dotted: cut off by the frame." : ""}
      {outlines.some((outline) => outline.image) ? " The thin line inside is the picture's own edge." : ""}
    </p>
  );
}

/** The four sides of a sheet, each drawn as it was seen. */
export const SheetSides = ({ outline }: { outline: ShownOutline }) => (
  <>
    {sidesOf(outline).map(({ from, to, state }) => (
      <>
        <line class="outline-halo" x1={from.x} y1={from.y} x2={to.x} y2={to.y} vector-effect="non-scaling-stroke" />
        <line class={`outline-side outline-${state}`} x1={from.x} y1={from.y} x2={to.x} y2={to.y} vector-effect="non-scaling-stroke" />
      </>
    ))}
  </>
);

function PartNumber({ number, at, radius }: { number: number; at: Point; radius: number }) {
  return (
    <g class="part-number">
      <circle cx={at.x} cy={at.y} r={radius} />
      <text x={at.x} y={at.y} font-size={radius * 1.2} text-anchor="middle" dominant-baseline="central">
        {number}
      </text>
    </g>
  );
}

function sidesOf({ sheet, sides }: ShownOutline): { from: Point; to: Point; state: "seen" | "assumed" | "cut-off" }[] {
  return [
    { from: sheet.topLeft, to: sheet.topRight, state: sides.top },
    { from: sheet.topRight, to: sheet.bottomRight, state: sides.right },
    { from: sheet.bottomRight, to: sheet.bottomLeft, state: sides.bottom },
    { from: sheet.bottomLeft, to: sheet.topLeft, state: sides.left },
  ];
}

const corners = (quad: Quad): Point[] => [quad.topLeft, quad.topRight, quad.bottomRight, quad.bottomLeft];

const cornersInWords = (quad: Quad): string =>
  corners(quad)
    .map((corner) => `${corner.x},${corner.y}`)
    .join(" ");

function middleOf(quad: Quad): Point {
  const sum = corners(quad).reduce((total, corner) => ({ x: total.x + corner.x, y: total.y + corner.y }));
  return { x: sum.x / 4, y: sum.y / 4 };
}
