import type { Point } from "#domain/measure/picture.ts";
import type { Outline } from "#domain/measure/reading.ts";

type OverlayProps = { widthPx: number; heightPx: number; outlines: readonly Outline[]; numbered?: boolean };

/** Where the print was found, drawn over its capture in the capture's own pixels. */
export function OutlineOverlay({ widthPx, heightPx, outlines, numbered = false }: OverlayProps) {
  // pixel centres have whole coordinates, so the frame itself begins half a pixel earlier
  return (
    <svg class="outline-overlay" viewBox={`-0.5 -0.5 ${widthPx} ${heightPx}`} preserveAspectRatio="none" aria-hidden="true">
      {outlines.map((outline, index) => (
        <g>
          {sidesOf(outline).map(({ from, to, state }) => (
            <>
              <line class="outline-halo" x1={from.x} y1={from.y} x2={to.x} y2={to.y} vector-effect="non-scaling-stroke" />
              <line
                class={`outline-side outline-${state}`}
                x1={from.x}
                y1={from.y}
                x2={to.x}
                y2={to.y}
                vector-effect="non-scaling-stroke"
              />
            </>
          ))}
          {outline.image ? <polygon class="outline-image" points={cornersOf(outline.image)} vector-effect="non-scaling-stroke" /> : null}
          {numbered ? <PartNumber number={index + 1} at={middleOf(outline)} radius={Math.min(widthPx, heightPx) / 14} /> : null}
        </g>
      ))}
    </svg>
  );
}

/** What the lines mean; stands below the picture because colour alone must not say it. */
export function OutlineLegend({ outlines }: { outlines: readonly Outline[] }) {
  if (outlines.length === 0) return <p class="hint">The print's outline was not found in this capture.</p>;
  const states = new Set(outlines.flatMap((outline) => Object.values(outline.sides)));
  return (
    <p class="hint">
      Lines show the sheet as it was found. {states.has("seen") ? "Solid: edge seen. " : ""}
      {states.has("assumed") ? "Dashed: assumed from the print's size. " : ""}
      {states.has("cut-off") ? "Dotted: cut off by the frame. " : ""}
      {outlines.some((outline) => outline.image) ? "The thin line inside is the picture's own edge." : ""}
    </p>
  );
}

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

function sidesOf({ sheet, sides }: Outline): { from: Point; to: Point; state: "seen" | "assumed" | "cut-off" }[] {
  return [
    { from: sheet.topLeft, to: sheet.topRight, state: sides.top },
    { from: sheet.topRight, to: sheet.bottomRight, state: sides.right },
    { from: sheet.bottomRight, to: sheet.bottomLeft, state: sides.bottom },
    { from: sheet.bottomLeft, to: sheet.topLeft, state: sides.left },
  ];
}

const cornersOf = (quad: Outline["sheet"]) =>
  [quad.topLeft, quad.topRight, quad.bottomRight, quad.bottomLeft].map((corner) => `${corner.x},${corner.y}`).join(" ");

function middleOf({ sheet }: Outline): Point {
  const corners = [sheet.topLeft, sheet.topRight, sheet.bottomRight, sheet.bottomLeft];
  return { x: corners.reduce((sum, c) => sum + c.x, 0) / 4, y: corners.reduce((sum, c) => sum + c.y, 0) / 4 };
}
