import type { Arrangement } from "#domain/plan/arrangement.ts";
import type { Asked } from "#domain/plan/asked.ts";
import type { AperturePlan, CameraPlan, ExposurePlan } from "#domain/plan/camera-plan.ts";
import { GLASSES, panesAt } from "#domain/plan/glass.ts";
import type { SizePlan } from "#domain/plan/plan-capture.ts";
import type { Spent } from "#domain/plan/time-and-cost.ts";
import type { PlanWarning } from "#domain/plan/warnings.ts";
import { workedOut } from "#domain/plan/worked-out.ts";
import { bytesInWords } from "../format/bytes.ts";
import { counted } from "../format/counted.ts";
import { exposureInWords } from "../format/exposure-time.ts";
import { moneyInWords } from "../format/money.ts";
import { AperturePlot } from "./aperture-plot.tsx";
import { LampDrawing } from "./lamp-drawing.tsx";
import { PlanFormulas } from "./plan-formulas.tsx";

export const REACH_WORDS: Readonly<Record<SizePlan["reach"], string>> = {
  aimed: "reaches what is aimed at",
  least: "reaches what is required",
  short: "falls short",
};

export const sizeInWords = ({ widthMm, heightMm }: { widthMm: number; heightMm: number }): string =>
  `${lengthInWords(widthMm)} × ${lengthInWords(heightMm)} mm`;

/** What stands in the way comes first, then what to mind. */
function PlanWarnings({ warnings }: { warnings: readonly PlanWarning[] }) {
  if (warnings.length === 0)
    return (
      <div class="notice notice-good">
        <p>Nothing stands in the way of the aim, as far as figures can tell. A target check of the set-up proves it.</p>
      </div>
    );
  return (
    <ul class="plan-warnings">
      {warnings
        .toSorted((a, b) => Number(a.weight === "mind") - Number(b.weight === "mind"))
        .map(({ weight, text, remedy }) => (
          <li class={`notice ${weight === "mind" ? "notice-caution" : "notice-warning"}`}>
            <p>
              <strong>{weight === "mind" ? "Mind: " : "In the way: "}</strong>
              {text}
            </p>
            <p>{remedy}</p>
          </li>
        ))}
    </ul>
  );
}

/** The plan for prints of one size. */
export function SizePlanView(props: { plan: SizePlan; arrangement: Arrangement; asked: Asked; bits: 8 | 16 }) {
  const { plan, arrangement, asked, bits } = props;
  const { camera, scanner, printPx } = plan;
  return (
    <>
      <PlanWarnings warnings={plan.warnings} />
      <dl class="facts plan-facts">
        <Fact name="Sampling">
          {Math.floor(plan.ppi)} ppi: {REACH_WORDS[plan.reach]} ({asked.leastPpi} required, {asked.aimedPpi} aimed at)
        </Fact>
        <Fact name="The print in pixels">
          {printPx.width} × {printPx.height}
        </Fact>
        {camera ? <CameraFacts plan={camera} asked={asked} /> : null}
        {scanner ? <Fact name="On the bed">{bedWords(scanner.fitsBed)}</Fact> : null}
        <Fact name="Glass">
          {GLASSES[arrangement.glass]}
          {arrangement.glassPercent == null ? "" : `, which throws back ${arrangement.glassPercent} % as its maker says`}
        </Fact>
        {arrangement.glass === "none" || arrangement.light.lamps === null ? null : (
          <Fact name="Glass at the lamps' angle">
            {glassAtAngleInWords(arrangement.light.lamps.elevationDegrees, (camera?.lighting?.clearanceMm ?? 0) >= 0)}
          </Fact>
        )}
        <Fact name="One file">
          {bytesInWords(plan.bytes)} uncompressed, {bits} bits a colour, {arrangement.fileForm === "lossy" ? "with loss" : "without loss"}
        </Fact>
      </dl>
      {camera ? (
        <div class="plan-plots">
          <section aria-label="Aperture">
            <h3>Aperture</h3>
            <AperturePlot plan={camera.aperture} />
          </section>
          {camera.lighting ? (
            <section aria-label="Lamps">
              <h3>Lamps</h3>
              <LampDrawing plan={camera.lighting} size={plan.size} lensMm={camera.lensMm} />
            </section>
          ) : null}
        </div>
      ) : null}
      <PlanFormulas steps={workedOut(plan, arrangement)} />
    </>
  );
}

function CameraFacts({ plan, asked }: { plan: CameraPlan; asked: Asked }) {
  const { aperture, exposure, lighting } = plan;
  return (
    <>
      <Fact name="Distance">
        {Math.round(plan.lensMm)} mm from print to lens (its middle), {Math.round(plan.sensorMm)} mm to the sensor
      </Fact>
      <Fact name="Seen">
        {sizeInWords(plan.seen)}, drawn at {plan.magnification.toFixed(3)} of its size
      </Fact>
      <Fact name="Depth needed">
        {aperture.depthMm.toFixed(1)} mm, with the focus half-way up
        {aperture.depthOfFieldMm === null
          ? ""
          : `; the planned aperture is sharp to two pixels of the aimed sampling over ${aperture.depthOfFieldMm.toFixed(1)} mm`}
      </Fact>
      <Fact name="Aperture">
        {aperture.used
          ? `f/${aperture.used.fNumber}, which works as f/${(aperture.effectiveFNumber ?? 0).toFixed(1)} this close; at most ${Math.round(100 * Math.max(0, aperture.used.atTheEnds))} % of the contrast is left at ${aperture.atCyPerMm.toFixed(1)} cy/mm where the print is worst served`
          : "none leaves any contrast at the fineness that is asked for"}
      </Fact>
      {aperture.diffractionSpot ? (
        <Fact name="Diffraction spot">
          {(1000 * aperture.diffractionSpot.sensorMm).toFixed(1)} µm across on the sensor, {aperture.diffractionSpot.printMm.toFixed(3)} mm
          on the print: no lens draws a point smaller at this aperture
        </Fact>
      ) : null}
      <Fact name="Apertures that serve">{windowWords(aperture)}</Fact>
      <Fact name="Exposure">{exposure ? exposureWords(exposure) : "not planned: the light on the print is not known"}</Fact>
      {lighting ? (
        <Fact name="Evenness">
          {lighting.lossPercent.both.toFixed(1)} % less light at the darkest place than at the brightest:{" "}
          {lighting.lossPercent.lamps.toFixed(1)} % by the lamps' places, {lighting.lossPercent.lens.toFixed(1)} % by the lens. Lightness
          varies by {lighting.lossPercent.lightnessSpreadPercent.toFixed(1)} %
          {asked.evenness.mostPercent === null ? "" : ` (at most ${asked.evenness.mostPercent} % required)`}
        </Fact>
      ) : null}
    </>
  );
}

const Fact = ({ name, children }: { name: string; children?: unknown }) => (
  <>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </>
);

/** The picture is spared it only by where the lamps stand. */
function glassAtAngleInWords(elevationDegrees: number, isClear: boolean): string {
  const { plain, coated } = panesAt(90 - elevationDegrees);
  const percent = (share: number) => `${(100 * share).toFixed(1)} %`;
  return `${percent(plain)} of the lamps' light leaves plain glass like a mirror, ${percent(coated)} glass with one layer; ${isClear ? "it misses the lens, because the lamps stand outside the family of angles" : "a part of it reaches the lens, because the lamps stand inside the family of angles"}`;
}

function windowWords({ window, atCyPerMm, responses }: AperturePlan): string {
  const at = `half the contrast at ${atCyPerMm.toFixed(1)} cy/mm over the whole depth`;
  const of = `of those from f/${responses[0]?.fNumber} to f/${responses.at(-1)?.fNumber}`;
  if (!window?.half) return `no aperture keeps ${at}, ${of}`;
  const { from, to } = window.half;
  return from === to ? `only f/${from} keeps ${at}, ${of}` : `f/${from} to f/${to} keep ${at}, ${of}`;
}

const bedWords = (fitsBed: boolean | null): string =>
  fitsBed === null ? "not known: the size of the bed was not written" : fitsBed ? "print and margin lie on it" : "too large for it";

function exposureWords({ seconds, ev100, lossStops, restSeconds }: ExposurePlan): string {
  const rest = restSeconds === 0 ? "" : `; wait ${restSeconds} s after the release is touched, or release without touching`;
  return `${exposureInWords(seconds)} (EV ${ev100.toFixed(1)} at ISO 100, ${lossStops.toFixed(1)} stops lost by drawing this large)${rest}`;
}

/** Hours, money and disk for the whole job. */
export function JobFigures(props: {
  printCount: number;
  bytes: number;
  pace: { readonly minutes: number; readonly basis: "typed" | "files"; readonly steps: number | null } | null;
  effort: Spent | null;
  currency: string | null;
}) {
  const { printCount, bytes, pace, effort, currency } = props;
  return (
    <dl class="facts plan-facts">
      <Fact name="Files">
        {counted(printCount, "print", "prints")}, {bytesInWords(bytes)} uncompressed; compression saves some of it, how much no figure tells
        beforehand
      </Fact>
      <Fact name="Time">
        {effort && pace
          ? `${effort.hours.toFixed(1)} hours at ${pace.minutes.toFixed(1)} minutes a print${pace.basis === "files" ? `, the median of ${pace.steps} steps from print to print with this set-up so far` : ""}`
          : "not known: write the minutes a print takes"}
      </Fact>
      <Fact name="Cost">
        {effort?.costOfAll == null
          ? "not known: write a price"
          : `${moneyInWords(effort.costOfAll, currency)}${effort.costPerPrint === null ? "" : `, ${moneyInWords(effort.costPerPrint, currency)} a print`}${currency === null ? ", in a currency that nobody wrote" : ""}${LEFT_OUT[effort.leftOut ?? "nothing"]}`}
      </Fact>
    </dl>
  );
}

const LEFT_OUT = {
  nothing: "",
  equipment: "; without the equipment, whose price nobody wrote",
  work: "; without the work, whose price nobody wrote",
} as const;

const lengthInWords = (length: number): string => String(Math.round(length * 10) / 10);
