import type { LightingPlan } from "#domain/plan/camera-plan.ts";
import { glareZoneMm, lampPlaces } from "#domain/plan/lighting.ts";
import type { Extent } from "#domain/plan/sampling.ts";

type Props = { plan: LightingPlan; size: Extent; lensMm: number };

const WIDTH = 640;
const EDGE = 24;
const GAP = 56;
const LABEL = 20;

/** Print, lens, lamps and the family of angles, drawn to one scale from the side and from above; the words below say the same. */
export function LampDrawing(props: Props) {
  const { plan, size, lensMm } = props;
  const lamps = lampPlaces(plan.lamps);
  const half = plan.lamps.widthMm / 2;
  const [long, short] = [Math.max(size.widthMm, size.heightMm), Math.min(size.widthMm, size.heightMm)];
  // four lamps stand over the diagonals, so that the side view is cut along one
  const across = 2 * plan.halfAcrossMm;
  const reach = Math.max(across / 2, ...lamps.map(({ x, y }) => Math.hypot(x, y) + half));
  const high = Math.max(lensMm, ...lamps.map(({ z }) => z + half));
  const deep = Math.max(short / 2, ...lamps.map(({ y }) => Math.abs(y) + half));
  const scale = (WIDTH - 2 * EDGE) / (2 * reach);
  const sideHeight = high * scale;
  const height = 2 * EDGE + LABEL + sideHeight + GAP + 2 * deep * scale + 40;
  const middle = WIDTH / 2;
  const ground = EDGE + LABEL + sideHeight;
  const above = ground + GAP + deep * scale;
  const barMm = roundLength(reach / 2);
  return (
    <figure class="plot lamp-drawing">
      <svg viewBox={`0 0 ${WIDTH} ${height.toFixed(0)}`} role="img" aria-label={inWords(props)}>
        <g transform={`translate(${middle} ${ground})`}>
          <path class="lamp-zone" d={zonePath(props, high, reach, scale)} />
          <path class="lamp-sight" d={`M${-half2(across, scale)} 0L0 ${-lensMm * scale}L${half2(across, scale)} 0`} />
          <line class="lamp-print" x1={-half2(across, scale)} x2={half2(across, scale)} y1="0" y2="0" />
          <circle class="lamp-lens" cx="0" cy={-lensMm * scale} r="7" />
          <text class="plot-mark" x="14" y={-lensMm * scale} dominant-baseline="central">
            lens
          </text>
          {lamps.map((lamp) => (
            <SideLamp away={Math.sign(lamp.x) * Math.hypot(lamp.x, lamp.y)} z={lamp.z} half={half} scale={scale} />
          ))}
          <text class="plot-mark" x={-middle + EDGE} y={-sideHeight - 12}>
            {plan.lamps.count === 4 ? "From the side, along a diagonal" : "From the side"}
          </text>
        </g>
        <g transform={`translate(${middle} ${above})`}>
          <rect class="lamp-print" x={-half2(long, scale)} y={-half2(short, scale)} width={long * scale} height={short * scale} />
          <circle class="lamp-lens" cx="0" cy="0" r="7" />
          {lamps.map((lamp) => (
            <PlanLamp x={lamp.x} y={lamp.y} half={half} scale={scale} />
          ))}
          <text class="plot-mark" x={-middle + EDGE} y={-deep * scale - 12}>
            From above
          </text>
        </g>
        <g transform={`translate(${EDGE} ${height - 16})`}>
          <path class="lamp-bar" d={`M0 -5v10M0 0h${barMm * scale}M${barMm * scale} -5v10`} />
          <text class="plot-mark" x={barMm * scale + 10} y="0" dominant-baseline="central">
            {barMm} mm
          </text>
        </g>
      </svg>
      <figcaption>{inWords(props)}</figcaption>
    </figure>
  );
}

const half2 = (lengthMm: number, scale: number): number => (lengthMm / 2) * scale;

/** The family of angles as a wedge that opens upwards from the print's edges; where it has no end it takes the whole height. */
function zonePath({ plan, lensMm }: Props, high: number, reach: number, scale: number): string {
  const { halfAcrossMm, slopeDegrees } = plan;
  const top = Math.min(glareZoneMm(halfAcrossMm, lensMm, high, slopeDegrees), 4 * reach);
  const [near, far] = [halfAcrossMm * scale, top * scale];
  return `M${-near} 0L${near} 0L${far} ${-high * scale}L${-far} ${-high * scale}Z`;
}

/** A face seen from the side, square to the line that joins it with the print's middle. */
function SideLamp({ away, z, half, scale }: { away: number; z: number; half: number; scale: number }) {
  const distance = Math.hypot(away, z);
  const [dx, dy] = [(half * z) / distance, (half * away) / distance];
  return <line class="lamp-face" x1={(away - dx) * scale} y1={-(z + dy) * scale} x2={(away + dx) * scale} y2={-(z - dy) * scale} />;
}

function PlanLamp({ x, y, half, scale }: { x: number; y: number; half: number; scale: number }) {
  const distance = Math.hypot(x, y);
  const [dx, dy] = [(-half * y) / distance, (half * x) / distance];
  return <line class="lamp-face" x1={(x - dx) * scale} y1={(y - dy) * scale} x2={(x + dx) * scale} y2={(y + dy) * scale} />;
}

function inWords({ plan, lensMm }: Props): string {
  const { lamps, clearanceMm } = plan;
  const [lamp] = lampPlaces(lamps);
  const away = lamp ? Math.round(Math.hypot(lamp.x, lamp.y)) : 0;
  const up = lamp ? Math.round(lamp.z) : 0;
  const count =
    lamps.count === 1 ? "One lamp stands" : lamps.count === 2 ? "Two lamps stand left and right," : "Four lamps stand towards the corners,";
  const room =
    clearanceMm >= 0
      ? `${Math.floor(clearanceMm)} mm outside the family of angles (shaded), in which the print would mirror it into the lens`
      : `${Math.ceil(-clearanceMm)} mm inside the family of angles (shaded): the print mirrors it into the lens`;
  return `${count} ${away} mm from the middle of the print and ${up} mm above it; the lens is ${Math.round(lensMm)} mm above it. The lamp's face is ${room}.`;
}

/** 1, 2 or 5 times a power of ten, not above the length. */
function roundLength(lengthMm: number): number {
  const power = 10 ** Math.floor(Math.log10(lengthMm));
  return ([5, 2, 1].find((step) => step * power <= lengthMm) ?? 1) * power;
}
