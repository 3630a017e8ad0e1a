import { type Purpose, purposeInSentence } from "#domain/aim/aim.ts";
import type { Arrangement } from "#domain/plan/arrangement.ts";
import type { Asked } from "#domain/plan/asked.ts";
import { sizeKey } from "#domain/plan/job.ts";
import { JOB_LABELS } from "#domain/plan/job-input.ts";
import type { CapturePlan, SizePlan } from "#domain/plan/plan-capture.ts";
import type { PlanWarning } from "#domain/plan/warnings.ts";
import { counted } from "../format/counted.ts";
import { StandCautions } from "../parts/cautions.tsx";
import type { FormState } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { PLAN_LABELS, PlanFields } from "../parts/plan-fields.tsx";
import { JobFigures, REACH_WORDS, SizePlanView, sizeInWords } from "../parts/plan-results.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

export type ShownPlan = {
  readonly arrangement: Arrangement;
  readonly purpose: Purpose;
  readonly asked: Asked;
  readonly of: "print" | "size" | "recapture-list";
  readonly plan: CapturePlan;
  readonly printCount: number;
  readonly withoutSize: readonly string[];
  readonly stopped: readonly { readonly id: number; readonly objectNumber: string; readonly caution: string }[];
  readonly pace: Parameters<typeof JobFigures>[0]["pace"];
  readonly currency: string | null;
  readonly effort: Parameters<typeof JobFigures>[0]["effort"];
};

export type PlanPageProps = {
  collectionName: string;
  form: FormState;
  purposes: readonly Purpose[];
  setUps: readonly { readonly id: number; readonly name: string; readonly hasFigures: boolean }[];
  /** the one whose figures are used or may be kept */
  setUpId: number | null;
  shown: ShownPlan | null;
  /** the address of this plan with another size shown in full */
  sizeHref: (key: string) => string;
  /** which size is shown in full; the largest where it is not one of them */
  sizeShown: string | null;
  done?: string;
};

/** What a set-up can do for a print, or for all that have to be captured again, before anything is set up. */
export function PlanPage(props: PlanPageProps) {
  const { form, setUps, setUpId, shown } = props;
  const setUp = setUps.find(({ id }) => id === setUpId);
  return (
    <Layout title="Plan a capture" section="recapture" collectionName={props.collectionName}>
      <div class="page">
        <header class="page-head">
          <div>
            <h1>Plan a capture</h1>
            <p>
              Whether an arrangement reaches the aim, worked out before anything is set up. Figures tell what cannot be done; that it was
              done, only captures and target checks tell.
            </p>
          </div>
          <p class="actions">
            <a class="button button-quiet" href="/set-ups">
              Set-ups
            </a>
          </p>
        </header>
        <DoneNotice done={props.done} />
        <RefusalSummary refusals={form.refusals} labels={PLAN_LABELS} title="No plan yet. Everything you typed is still here." />
        {shown ? <Planned {...props} shown={shown} /> : null}
        {setUps.length > 0 ? (
          <nav class="card plan-start" aria-label="Start from a set-up">
            <h2>Start from a set-up</h2>
            <ul>
              {setUps.map(({ id, name, hasFigures }) => (
                <li>
                  <a
                    href={`/plan?${new URLSearchParams({ ...job(form), setUp: String(id) })}`}
                    aria-current={id === setUpId ? "true" : undefined}
                  >
                    {name}
                  </a>
                  <span class="soft">{hasFigures ? "" : " (no figures kept yet)"}</span>
                </li>
              ))}
            </ul>
          </nav>
        ) : null}
        <form method="get" action="/plan" id="figures" novalidate>
          {setUp ? <input type="hidden" name="setUp" value={String(setUp.id)} /> : null}
          <PlanFields form={form} purposes={props.purposes} />
          <p class="actions record-foot">
            <button class="button" type="submit">
              Work out the plan
            </button>
            {setUp ? (
              <button class="button button-quiet" type="submit" formmethod="post" formaction={`/set-ups/${setUp.id}/figures`}>
                Keep the figures with {setUp.name}
              </button>
            ) : null}
          </p>
        </form>
        <script src="/assets/fold-on-phone.js"></script>
      </div>
    </Layout>
  );
}

/** What was said of the job goes on when the figures of another set-up are taken. */
const job = ({ typed }: FormState): Record<string, string> =>
  Object.fromEntries([...Object.keys(JOB_LABELS), "purpose"].flatMap((name) => (typed[name] ? [[name, typed[name]]] : [])));

function Planned({ shown, sizeHref, sizeShown }: PlanPageProps & { shown: ShownPlan }) {
  const { plan, arrangement } = shown;
  const inFull = plan.sizes.find(({ size }) => sizeKey(size) === sizeShown) ?? plan.sizes[0];
  return (
    <>
      <section class="card" aria-labelledby="plan-title">
        <h2 id="plan-title">{headline(shown)}</h2>
        {shown.stopped.length > 0 ? <Stopped stopped={shown.stopped} /> : null}
        {plan.sizes.length > 1 ? <Sizes plans={plan.sizes} shown={inFull} href={sizeHref} /> : null}
        {shown.withoutSize.length > 0 ? (
          <p class="notice notice-caution">
            {counted(shown.withoutSize.length, "print is", "prints are")} left out, because nobody has measured{" "}
            {shown.withoutSize.length === 1 ? "it" : "them"}: {shown.withoutSize.slice(0, 12).join(", ")}
            {shown.withoutSize.length > 12 ? " and others" : ""}.
          </p>
        ) : null}
        {shown.printCount === 0 ? (
          <p>
            Write an object number or a size below, and the plan is worked out for that. <a href="/recapture">The recapture list</a> says
            which prints have to be captured again.
          </p>
        ) : (
          <>
            <JobFigures
              printCount={shown.printCount}
              bytes={plan.bytes}
              pace={shown.pace}
              effort={shown.effort}
              currency={shown.currency}
            />
            <p class="soft">
              Before a print leaves its sleeve, read its cautions: they stand on its page and on the recapture list. Follow the safety rules
              of your house.
            </p>
            <StandCautions method={arrangement.scanner ? "flatbed-scanner" : "copy-stand-camera"} />
          </>
        )}
      </section>
      {inFull ? (
        <section class="card" aria-labelledby="size-title" id="size">
          <h2 id="size-title">
            {sizeInWords(inFull.size)}
            {shown.of === "recapture-list" ? <span class="soft"> {counted(inFull.size.prints.length, "print", "prints")}</span> : null}
          </h2>
          <SizePlanView plan={inFull} arrangement={arrangement} asked={shown.asked} bits={arrangement.bitsPerSample} />
        </section>
      ) : null}
    </>
  );
}

const MOST_STOPPED = 20;

/** Figures do not ask what touches a print: its cautions do. */
const Stopped = ({ stopped }: Pick<ShownPlan, "stopped">) => (
  <div class="notice notice-danger">
    <h3>Stop: {counted(stopped.length, "print", "prints")} must not be captured this way</h3>
    <ul>
      {stopped.slice(0, MOST_STOPPED).map(({ id, objectNumber, caution }) => (
        <li>
          <a class="object-number" href={`/prints/${id}`}>
            {objectNumber}
          </a>
          : {caution}
        </li>
      ))}
    </ul>
    {stopped.length > MOST_STOPPED ? <p>And {stopped.length - MOST_STOPPED} more; each print's page says so.</p> : null}
    <p>The figures count them all the same. Capture them from above, with nothing on them.</p>
  </div>
);

function Sizes({ plans, shown, href }: { plans: readonly SizePlan[]; shown: SizePlan | undefined; href: (key: string) => string }) {
  return (
    <section class="table-frame" aria-label="Sizes" tabindex={0}>
      <table class="table plan-sizes">
        <thead>
          <tr>
            <th scope="col">Size</th>
            <th scope="col">Prints</th>
            <th scope="col">Sampling</th>
            <th scope="col">Lens above the print</th>
            <th scope="col">Aperture</th>
            <th scope="col">In the way</th>
          </tr>
        </thead>
        <tbody>
          {plans.map((each) => (
            <tr>
              <th scope="row">
                <a href={href(sizeKey(each.size))} aria-current={each === shown ? "true" : undefined}>
                  {sizeInWords(each.size)}
                </a>
              </th>
              <td>{each.size.prints.length}</td>
              <td>
                {Math.floor(each.ppi)} ppi, {REACH_WORDS[each.reach]}
              </td>
              <td>{each.camera ? `${Math.round(each.camera.lensMm)} mm` : ""}</td>
              <td>{each.camera?.aperture.used ? `f/${each.camera.aperture.used.fNumber}` : ""}</td>
              <td>{each.warnings.filter(({ weight }) => weight === "in-the-way").length || "nothing"}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** How many prints reach how much, in one sentence. */
function headline({ plan, of, purpose, printCount }: ShownPlan): string {
  if (printCount === 0) return `Nothing to plan: no print of known size has to be captured again for ${purposeInSentence(purpose)}.`;
  const count = (reach: SizePlan["reach"]) =>
    plan.sizes.filter((size) => size.reach === reach).reduce((sum, { size }) => sum + size.prints.length, 0);
  const [only] = plan.sizes;
  if (of !== "recapture-list" && only)
    return `${hindrancesInWords(only, purposeInSentence(purpose))} Sampling ${REACH_WORDS[only.reach]}: ${Math.floor(only.ppi)} ppi.`;
  const hindered = plan.sizes.filter((size) => hindrancesOf(size).length > 0).reduce((sum, { size }) => sum + size.prints.length, 0);
  const parts = (["aimed", "least", "short"] as const).flatMap((reach) => {
    const number = count(reach);
    return number === 0 ? [] : [`${number} ${number === 1 ? REACH_WORDS[reach] : PLURAL[reach]}`];
  });
  return `${counted(printCount, "print", "prints")} to capture again for ${purposeInSentence(purpose)}: ${hindered === 0 ? "nothing stands in the way" : `something stands in the way of ${hindered}`}. In sampling, ${parts.join(", ")}.`;
}

const PLURAL = { aimed: "reach what is aimed at", least: "reach what is required", short: "fall short" } as const;

const hindrancesOf = ({ warnings }: SizePlan) => [
  ...new Set(warnings.filter(({ weight }) => weight === "in-the-way").map(({ about }) => HINDRANCES[about])),
];

function hindrancesInWords(size: SizePlan, purpose: string): string {
  const names = hindrancesOf(size);
  const last = names.at(-1);
  if (last === undefined) return `Nothing stands in the way for ${purpose}.`;
  return `In the way for ${purpose}: ${names.length === 1 ? last : `${names.slice(0, -1).join(", ")} and ${last}`}.`;
}

const HINDRANCES: Readonly<Record<PlanWarning["about"], string>> = {
  field: "the field of view",
  sampling: "sampling",
  aperture: "sharpness over the depth",
  exposure: "the exposure",
  lamps: "the lamps",
  evenness: "unevenness of light",
  glass: "the glass",
  file: "the file",
};
