import type { ActionAnswer } from "#domain/condition/cautions-for.ts";
import { ACTION_LABELS } from "#domain/condition/intended-action.ts";
import { LEVEL_WORDS } from "./cautions.tsx";

/** What the cautions answer to somebody who means to do something with this print besides capturing it. */
export const BeforeYou = ({ answers }: { answers: readonly ActionAnswer[] }) => (
  <details class="before-you">
    <summary>Before you lay glass on it, light it with hot lamps, post, show or freeze it</summary>
    <dl>
      {answers.map(({ action, verdict, cautions }) => (
        <>
          <dt>
            {ACTION_LABELS[action]}: <strong>{verdict === "must-not" ? "no" : "with care"}</strong>
          </dt>
          {cautions.map(({ level, title, text, cause, source }) => (
            <dd>
              <p>
                <strong>
                  {LEVEL_WORDS[level]}: {title}.
                </strong>{" "}
                {text}
              </p>
              <p class="small">
                {cause} Source: {source}.
              </p>
            </dd>
          ))}
        </>
      ))}
    </dl>
  </details>
);
