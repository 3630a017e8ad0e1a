import type { Aim, AimLimit } from "#domain/aim/aim.ts";
import type { Side } from "#domain/capture/capture.ts";
import type { Choice } from "#domain/master/choice.ts";
import { surenessInWords, turnInWords } from "#domain/master/doubt-in-words.ts";
import { labelOf, limitInWords, standing } from "./aim-words.ts";
import type { ShownCapture } from "./capture-card.tsx";
import { ChoiceField, type FormState, LongField } from "./field.tsx";
import { FileName } from "./file-name.tsx";
import { Moment } from "./moment.tsx";
import { Proposed, type ShownProposal } from "./proposed.tsx";
import { Refusals } from "./refusals.tsx";

export type EarlierChoice = {
  readonly captureId: number | null;
  readonly decidedBy: "rule" | "person";
  readonly who: string | null;
  readonly sentence: string;
  readonly aimVersion: number;
  readonly createdAt: string;
};

type Props = {
  printId: number;
  side: Side;
  aim: Aim;
  /** null before anything was judged */
  choice: Choice | null;
  captures: readonly ShownCapture[];
  /** what held before, newest first */
  earlier: readonly EarlierChoice[];
  /** a later capture that waits to be accepted or declined; null: none does */
  proposal: ShownProposal | null;
  /** what was typed into the form for another master, after it was refused */
  overruling: FormState | null;
};

/** The master of one side for one purpose: which capture, why, what it proves, and the way to decide otherwise. */
export function MasterChoice(props: Props) {
  const { aim, choice, side } = props;
  const id = `master-${side}-${aim.purpose.key}`;
  return (
    <section class="card master-choice" id={id} aria-labelledby={`${id}-title`}>
      <h3 id={`${id}-title`}>{aim.purpose.name}</h3>
      {props.proposal ? <Proposed printId={props.printId} proposal={props.proposal} /> : null}
      {choice === null ? <p>Not chosen yet: captures have to be measured first.</p> : <Decision {...props} choice={choice} />}
      {choice ? <Proof aim={aim} choice={choice} /> : null}
      {props.captures.length > 0 ? <Overrule {...props} /> : null}
      <Earlier earlier={withoutRepeats(props.earlier, choice)} captures={props.captures} />
    </section>
  );
}

function Decision({ printId, side, aim, choice, captures }: Props & { choice: Choice }) {
  const named = (id: number | null) => captures.find((capture) => capture.id === id);
  const [master, runnerUp, nearest] = [named(choice.captureId), named(choice.runnerUpId), named(choice.explanation.bestId)];
  return (
    <>
      {master ? (
        <p class="master-name">
          <a href={`/captures/${master.id}`}>
            <FileName name={master.name} />
          </a>
        </p>
      ) : (
        <p class="master-none">
          No capture is good enough. <a href={`/recapture?purpose=${aim.purpose.key}`}>What to change</a>
        </p>
      )}
      <p>{choice.sentence}</p>
      {choice.decidedBy === "rule" ? <Doubt choice={choice} /> : null}
      {choice.decidedBy === "person" ? (
        <p>
          Decided by {choice.who ?? "a keeper"}, <Moment at={choice.createdAt} />.
        </p>
      ) : null}
      {runnerUp ? (
        <p class="small soft">
          Runner-up: <a href={`/captures/${runnerUp.id}`}>{runnerUp.name}</a>
        </p>
      ) : null}
      {!master && nearest ? (
        <p class="small soft">
          Nearest to it: <a href={`/captures/${nearest.id}`}>{nearest.name}</a>
        </p>
      ) : null}
      {choice.decidedBy === "person" ? (
        <form method="post" action={`/prints/${printId}/master/release`}>
          <input type="hidden" name="side" value={side} />
          <input type="hidden" name="purposeKey" value={aim.purpose.key} />
          <button class="button button-quiet button-small" type="submit">
            Let the rule decide again
          </button>
        </form>
      ) : null}
    </>
  );
}

/** What was chosen before, so that it can be read why. */
const Earlier = ({ earlier, captures }: Pick<Props, "earlier" | "captures">) =>
  earlier.length === 0 ? null : (
    <details>
      <summary>Earlier choices ({earlier.length})</summary>
      <ol class="earlier-choices">
        {earlier.map(({ captureId, decidedBy, who, sentence, aimVersion, createdAt }) => (
          <li>
            <p>
              {captureId === null ? "No master" : (captures.find(({ id }) => id === captureId)?.name ?? "A capture that is no longer here")}
            </p>
            <p class="small">{sentence}</p>
            <p class="small soft">
              <Moment at={createdAt} />, {decidedBy === "person" ? (who ?? "a keeper") : "by the rule"}, version {aimVersion} of the aim
            </p>
          </li>
        ))}
      </ol>
    </details>
  );

/** Where the same was chosen again in the same words, because numbers moved, the last time stands for all. */
const withoutRepeats = (earlier: readonly EarlierChoice[], now: Choice | null): EarlierChoice[] =>
  earlier.filter((choice, index) => {
    const next = index === 0 ? now : earlier[index - 1];
    return next?.captureId !== choice.captureId || next.decidedBy !== choice.decidedBy || next.sentence !== choice.sentence;
  });

/** How sure the rule is, and what would have it choose otherwise. */
function Doubt({ choice }: { choice: Choice }) {
  const sure = surenessInWords(choice.explanation, choice.captureId !== null);
  const turn = turnInWords(choice.explanation);
  return (
    <>
      {sure ? <p class={choice.explanation.closeCall ? "too-close" : "small soft"}>{sure}</p> : null}
      {turn ? <p class="small soft">{turn}</p> : null}
    </>
  );
}

/** Which parts of the aim this print's own capture can prove, and which only the set-up's target can. */
function Proof({ aim, choice }: { aim: Aim; choice: Choice }) {
  const judgedId = choice.captureId ?? choice.explanation.bestId;
  const verdict = choice.explanation.verdicts.find((each) => each.captureId === judgedId);
  const provable = aim.limits.filter((limit) => limit.provedBy === "print");
  const stands = (limit: AimLimit) => standing(limit, verdict)?.state;
  const met = provable.filter((limit) => stands(limit) === "met");
  const short = provable.filter((limit) => stands(limit) === "short");
  const notShown = provable.filter((limit) => isRequired(limit) && stands(limit) === "not-shown");
  const open = provable.filter((limit) => stands(limit) === "open");
  const byTarget = aim.limits.filter((limit) => limit.provedBy === "target");
  return (
    <details>
      <summary>What this capture proves of the aim, and what it cannot</summary>
      <dl class="proof">
        <Limits title="Meets" limits={met} />
        <Limits title="Short of" limits={short} />
        <Limits title="Cannot be told, since only a bound is known" limits={open} />
        <Limits title="Does not show" limits={notShown} />
        <Limits title="Only a target check of the set-up can prove" limits={byTarget} />
      </dl>
      <p class="small soft">
        Aim: <a href={`/purposes/${aim.purpose.key}`}>{aim.name}</a>, from {aim.edition}. Published levels rate a set-up on a measured
        target, so a capture of a print alone never earns one.
        {choice.aimId === aim.id ? "" : " This choice was made under an earlier version of the aim."}
      </p>
    </details>
  );
}

const Limits = ({ title, limits }: { title: string; limits: readonly AimLimit[] }) =>
  limits.length === 0 ? null : (
    <>
      <dt>{title}</dt>
      <dd>{limits.map((limit) => `${labelOf(limit.measure)} (${limitInWords(limit)})`).join("; ")}</dd>
    </>
  );

const isRequired = (limit: AimLimit) => limit.requiredAtLeast !== null || limit.requiredAtMost !== null;

function Overrule({ printId, side, aim, captures, choice, overruling }: Props) {
  const form = overruling ?? { typed: { captureId: String(choice?.captureId ?? "") }, refusals: [] };
  const id = `${side}-${aim.purpose.key}`;
  return (
    <details open={overruling !== null}>
      <summary>Choose another master</summary>
      <form class="overrule" method="post" action={`/prints/${printId}/master`}>
        <Refusals refusals={form.refusals.filter((refusal) => refusal.about !== "captureId" && refusal.about !== "reason")} />
        <input type="hidden" name="side" value={side} />
        <input type="hidden" name="purposeKey" value={aim.purpose.key} />
        <ChoiceField
          form={form}
          id={`captureId-${id}`}
          name="captureId"
          label="Capture"
          isRequired
          choices={captures.map((capture) => ({ value: String(capture.id), label: capture.name }))}
        />
        <LongField
          form={form}
          id={`reason-${id}`}
          name="reason"
          label="Reason"
          isRequired
          rows={2}
          most={1000}
          hint="What you see that the measures do not. It stays in the history."
        />
        <button class="button button-small" type="submit">
          Make it the master
        </button>
      </form>
    </details>
  );
}
