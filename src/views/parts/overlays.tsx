import type { FrameSize } from "#domain/measure/marked-area.ts";
import type { Point } from "#domain/measure/picture.ts";
import type { Loop } from "#domain/measure/planes/mask-contours.ts";
import { SheetSides, type ShownOutline } from "./outline-overlay.tsx";

export const OVERLAY_LABELS = {
  outline: "Outline of the sheet",
  picture: "Edge of the picture",
  glare: "Glare",
  highlights: "Clipped highlights",
  shadows: "Clipped shadows",
  streaks: "Streaks",
  rings: "Interference rings",
  dust: "Dust and scratches",
  sharpness: "Sharpness across the print",
  evenness: "Evenness of the light",
  edges: "Edges the resolution was read from",
} as const;

export type OverlayId = keyof typeof OVERLAY_LABELS;

/** What is drawn, in pixels of the capture. */
export type Drawing =
  | { readonly kind: "outline"; readonly outline: ShownOutline; readonly cornerSpreadPx: number }
  | { readonly kind: "picture"; readonly corners: readonly Point[] }
  /** areas are hatched, bands and spots too; bands and spots are often too small to see, so they are pointed at */
  | { readonly kind: "areas" | "bands" | "spots"; readonly loops: readonly (readonly Loop[])[] }
  /** size: 1 for the largest */
  | {
      readonly kind: "circles";
      readonly circles: readonly { readonly at: Point; readonly size: number }[];
      readonly arrow: { readonly from: Point; readonly degrees: number } | null;
    }
  | { readonly kind: "figures"; readonly figures: readonly { readonly at: Point; readonly text: string }[] }
  | { readonly kind: "lines"; readonly lines: readonly (readonly [Point, Point])[] };

export type ShownOverlay = {
  readonly id: OverlayId;
  /** how many and how large, or why there is none */
  readonly words: string;
  readonly isOn: boolean;
  /** a hint only: drawn with a broken line */
  readonly isHint: boolean;
  readonly drawing: Drawing | null;
};

/**
 * What the measures found, drawn over the picture in the capture's own pixels. The legend says the same in words.
 * @param props.on tells the patterns of several pictures on one page apart
 */
export function Overlays({ widthPx, heightPx, overlays, on = "picture" }: FrameSize & { overlays: readonly ShownOverlay[]; on?: string }) {
  const unit = Math.max(widthPx, heightPx) / 100;
  return (
    <svg class="overlay-layers" viewBox={`-0.5 -0.5 ${widthPx} ${heightPx}`} preserveAspectRatio="none" aria-hidden="true">
      <defs>{overlays.flatMap(({ id, drawing }) => (drawing && id in HATCHES ? [<Hatch id={id} side={unit * 1.4} on={on} />] : []))}</defs>
      {overlays.map((overlay) =>
        overlay.drawing ? (
          <g class={`layer layer-${overlay.id}${overlay.isHint ? " layer-hint" : ""}`}>
            <Drawn id={overlay.id} drawing={overlay.drawing} frame={{ widthPx, heightPx }} unit={unit} on={on} />
          </g>
        ) : null,
      )}
    </svg>
  );
}

/** Switches and words, one line an overlay. They work without a script: the style sheet looks at the boxes. */
export const OverlayLegend = ({ overlays }: { overlays: readonly ShownOverlay[] }) => (
  <fieldset class="overlay-legend">
    <legend>Shown over the picture</legend>
    <label class="check">
      <input type="checkbox" id="layer-any" checked autocomplete="off" /> All that is chosen here
    </label>
    <ul>
      {overlays.map((overlay) => (
        <li class={overlay.isHint ? "layer-hint" : undefined}>
          {overlay.drawing ? (
            <label class="check" for={`layer-${overlay.id}`}>
              <input
                type="checkbox"
                id={`layer-${overlay.id}`}
                checked={overlay.isOn}
                autocomplete="off"
                aria-describedby={`layer-${overlay.id}-words`}
              />
              <Swatch overlay={overlay} />
              {OVERLAY_LABELS[overlay.id]}
            </label>
          ) : (
            <span class="overlay-none">{OVERLAY_LABELS[overlay.id]}</span>
          )}
          <p class="small" id={`layer-${overlay.id}-words`}>
            {overlay.words}
          </p>
        </li>
      ))}
    </ul>
  </fieldset>
);

/** The overlay's own drawing in small, so that it is known by more than its colour. */
export function Swatch({ overlay: { id, drawing } }: { overlay: ShownOverlay }) {
  const hatch = drawing && id in HATCHES ? <Hatch id={id} side={9} on="legend" /> : null;
  return (
    <svg class="overlay-swatch" viewBox="0 0 32 20" width="32" height="20" aria-hidden="true">
      {hatch ? <defs>{hatch}</defs> : null}
      <rect class="swatch-ground" width="32" height="20" />
      <g class={`layer layer-${id}`}>
        {hatch ? <rect class="area-fill" x="3" y="3" width="26" height="14" fill={`url(#hatch-legend-${id})`} /> : <Small id={id} />}
      </g>
      {hatch ? <Twice d="M3 3h26v14h-26z" /> : null}
    </svg>
  );
}

function Small({ id }: { id: OverlayId }) {
  if (id === "sharpness") return <Twice d={`${circle({ x: 9, y: 10 }, 3)}${circle({ x: 22, y: 10 }, 7)}`} />;
  if (id === "evenness")
    return (
      <text class="figure" x="16" y="11" font-size="13" text-anchor="middle" dominant-baseline="central">
        %
      </text>
    );
  if (id === "edges") return <Twice d="M4 16L28 4" extra="edge-used" />;
  return id === "picture" ? <Twice d="M4 4h24v12h-24z" extra="picture-edge" /> : <Twice d="M4 4h24v12h-24z" />;
}

function Drawn({ id, drawing, frame, unit, on }: { id: OverlayId; drawing: Drawing; frame: FrameSize; unit: number; on: string }) {
  switch (drawing.kind) {
    case "outline":
      return (
        <>
          <SheetSides outline={drawing.outline} />
          <Twice
            d={cornersOfSheet(drawing)
              .map((at) => circle(at, Math.max(0.6 * unit, 2 * drawing.cornerSpreadPx)))
              .join("")}
          />
        </>
      );
    case "picture":
      return <Twice d={path(drawing.corners)} extra="picture-edge" />;
    case "circles":
      return (
        <>
          <Twice d={drawing.circles.map(({ at, size }) => circle(at, size * 1.8 * unit)).join("")} />
          {drawing.arrow ? <Twice d={arrow(drawing.arrow.from, drawing.arrow.degrees, 9 * unit)} extra="thick" /> : null}
        </>
      );
    case "figures":
      return (
        <>
          {drawing.figures.map(({ at, text }) => (
            <text
              class="figure"
              x={tenths(at.x)}
              y={tenths(at.y)}
              font-size={tenths(3 * unit)}
              text-anchor="middle"
              dominant-baseline="central"
            >
              {text}
            </text>
          ))}
        </>
      );
    case "lines":
      return <Twice d={drawing.lines.map(([from, to]) => `M${pair(from)}L${pair(to)}`).join("")} extra="edge-used" />;
    default:
      return (
        <>
          {drawing.loops.map((loops) => {
            const d = loops.map(path).join("");
            return (
              <>
                <path class="area-fill" d={d} fill={`url(#hatch-${on}-${id})`} fill-rule="evenodd" />
                <Twice d={d} />
                {drawing.kind === "areas" ? null : (
                  <Twice d={loops.map((loop) => pointer(drawing.kind, loop, frame, unit)).join("")} extra="pointer" />
                )}
              </>
            );
          })}
        </>
      );
  }
}

/** A light line on a wider dark one shows on any picture (WCAG 2.2, 1.4.11). */
const Twice = ({ d, extra }: { d: string; extra?: string }) => (
  <>
    <path class="line-halo" d={d} vector-effect="non-scaling-stroke" />
    <path class={extra ? `line ${extra}` : "line"} d={d} vector-effect="non-scaling-stroke" />
  </>
);

/** Each kind of area has a pattern of its own, in squares of 10 × 10. */
const HATCHES: Partial<Record<OverlayId, string>> = {
  glare: "M-1 11L11 -1M-1 1L1 -1M9 11L11 9",
  highlights: "M3 5a2 2 0 1 0 4 0a2 2 0 1 0 -4 0",
  shadows: "M2 2L8 8M8 2L2 8",
  rings: "M0 5q2.5 -5 5 0t5 0",
  streaks: "M5 0V4M5 6V10",
  dust: "M0 5H10M5 0V10",
};

function Hatch({ id, side, on }: { id: OverlayId; side: number; on: string }) {
  return (
    <pattern
      id={`hatch-${on}-${id}`}
      class={`layer-${id}`}
      width={tenths(side)}
      height={tenths(side)}
      patternUnits="userSpaceOnUse"
      viewBox="0 0 10 10"
    >
      <path class="hatch-halo" d={HATCHES[id]} />
      <path class="hatch" d={HATCHES[id]} />
    </pattern>
  );
}

/** A ring round a spot; a mark at both ends of a band. */
function pointer(kind: "bands" | "spots" | "areas", loop: Loop, { widthPx, heightPx }: FrameSize, unit: number): string {
  const [xs, ys] = [loop.map(({ x }) => x), loop.map(({ y }) => y)];
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const at = { x: (left + right) / 2, y: (top + bottom) / 2 };
  if (kind === "spots") return circle(at, Math.max(right - left, bottom - top) / 2 + 0.7 * unit);
  const [along, across] = [1.8 * unit, 0.9 * unit];
  return bottom - top > right - left
    ? `${path([
        { x: at.x - across, y: 0 },
        { x: at.x + across, y: 0 },
        { x: at.x, y: along },
      ])}${path([
        { x: at.x - across, y: heightPx - 1 },
        { x: at.x + across, y: heightPx - 1 },
        { x: at.x, y: heightPx - 1 - along },
      ])}`
    : `${path([
        { x: 0, y: at.y - across },
        { x: 0, y: at.y + across },
        { x: along, y: at.y },
      ])}${path([
        { x: widthPx - 1, y: at.y - across },
        { x: widthPx - 1, y: at.y + across },
        { x: widthPx - 1 - along, y: at.y },
      ])}`;
}

function arrow(from: Point, degrees: number, length: number): string {
  const turn = (angle: number, reach: number, start: Point) => ({
    x: start.x + reach * Math.cos((angle * Math.PI) / 180),
    y: start.y + reach * Math.sin((angle * Math.PI) / 180),
  });
  const [tail, tip] = [turn(degrees + 180, length, from), turn(degrees, length, from)];
  const head = [150, -150].map((angle) => `M${pair(tip)}L${pair(turn(degrees + angle, length / 3, tip))}`);
  return `M${pair(tail)}L${pair(tip)}${head.join("")}`;
}

const cornersOfSheet = ({ outline: { sheet } }: { outline: ShownOutline }) => [
  sheet.topLeft,
  sheet.topRight,
  sheet.bottomRight,
  sheet.bottomLeft,
];

const circle = ({ x, y }: Point, radius: number) => {
  const r = tenths(radius);
  return `M${tenths(x - radius)} ${tenths(y)}a${r} ${r} 0 1 0 ${tenths(2 * radius)} 0a${r} ${r} 0 1 0 ${tenths(-2 * radius)} 0z`;
};

const path = (points: readonly Point[]) => `M${points.map(pair).join("L")}Z`;
const pair = ({ x, y }: Point) => `${tenths(x)} ${tenths(y)}`;
const tenths = (value: number) => Number(value.toFixed(1));
