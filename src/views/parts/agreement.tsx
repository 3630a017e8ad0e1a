import { measureInWords } from "#domain/aim/measure-words.ts";
import type { Agreement } from "#domain/master/eye-check.ts";
import { counted } from "../format/counted.ts";

export type ShownAgreement = {
  readonly all: Agreement;
  readonly sure: Agreement;
  readonly tooClose: Agreement;
  readonly byMeasure: readonly { readonly measure: string; readonly agreement: Agreement }[];
  /** pairs that could still be judged */
  readonly left: number;
};

/** How often a person's eye, not knowing which is which, found the same as the rule. */
export function ByEye({ purposeKey, agreement }: { purposeKey: string; agreement: ShownAgreement }) {
  const { all, sure, tooClose, byMeasure, left } = agreement;
  return (
    <section class="card" id="by-eye" aria-labelledby="by-eye-title">
      <h2 id="by-eye-title">Checked by eye</h2>
      {all.share === null ? (
        <p>
          {all.couldNotTell > 0
            ? `${counted(all.couldNotTell, "pair", "pairs")} could not be told apart; none was decided yet.`
            : "Nobody has checked the rule by eye yet: two captures are shown without names, and you say which is better."}
        </p>
      ) : (
        <>
          <p>{agreementInWords("The rule and the eye agree", all)}</p>
          <ul class="agreement">
            {sure.share ? <li>{agreementInWords("Where the rule was sure", sure)}</li> : null}
            {tooClose.share ? <li>{agreementInWords("Where it was too close to call", tooClose)}</li> : null}
            {byMeasure.map(({ measure, agreement: of }) => (
              <li>{agreementInWords(`Decided by ${measureInWords(measure)}`, of)}</li>
            ))}
          </ul>
        </>
      )}
      {left > 0 ? (
        <form method="post" action="/eye">
          <input type="hidden" name="purposeKey" value={purposeKey} />
          <button class="button button-quiet" type="submit">
            Compare two by eye, blind
          </button>
          <p class="hint">{counted(left, "pair is", "pairs are")} left that you have not judged.</p>
        </form>
      ) : (
        <p class="small soft">No pair is left to judge: pairs come with every print that has two captures good enough.</p>
      )}
    </section>
  );
}

/** e.g. “in 7 of 9 pairs: 78 % (95 % interval 45 to 94 %)” */
function agreementInWords(what: string, { agreed, differed, couldNotTell, share }: Agreement): string {
  if (share === null) return `${what}: nothing was decided yet.`;
  const percent = (value: number) => value.toFixed(0);
  const untold = couldNotTell > 0 ? ` ${couldNotTell} more could not be told apart.` : "";
  return `${what}: in ${agreed} of ${counted(agreed + differed, "pair", "pairs")}, ${percent(share.percent)} % (95 % interval ${percent(share.lowPercent)} to ${percent(share.highPercent)} %).${untold}`;
}
