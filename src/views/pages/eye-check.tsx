import { type Purpose, purposeInSentence } from "#domain/aim/aim.ts";
import { measureInWords } from "#domain/aim/measure-words.ts";
import { Layout } from "../parts/layout.tsx";
import { Notice } from "../parts/notice.tsx";

/** Where a close-up is taken from: as shares of what the sheet leaves beside it. Keys are those of the addresses. */
export const PLACES = [
  { key: "1", name: "top left", across: 0.1, down: 0.1 },
  { key: "2", name: "top", across: 0.5, down: 0.1 },
  { key: "3", name: "top right", across: 0.9, down: 0.1 },
  { key: "4", name: "left", across: 0.1, down: 0.5 },
  { key: "5", name: "middle", across: 0.5, down: 0.5 },
  { key: "6", name: "right", across: 0.9, down: 0.5 },
  { key: "7", name: "bottom left", across: 0.1, down: 0.9 },
  { key: "8", name: "bottom", across: 0.5, down: 0.9 },
  { key: "9", name: "bottom right", across: 0.9, down: 0.9 },
] as const;

type Common = { collectionName: string; address: string; purpose: Purpose };

export type EyeCheckPageProps = Common & {
  place: (typeof PLACES)[number];
  canvas: { readonly widthMm: number; readonly heightMm: number };
};

/** Two captures of one print, without a name or a number of either: which is better? */
export const EyeCheckPage = ({ collectionName, address, purpose, place, canvas }: EyeCheckPageProps) => (
  <Layout title="Which is better?" section={null} collectionName={collectionName} scripts={["eye-check.js"]}>
    <div class="page page-wide">
      <header class="page-head">
        <div>
          <h1>Which is better?</h1>
          <p>
            One print, captured twice, at one scale. Which would you rather keep for {purposeInSentence(purpose)}
            {purpose.note ? ` (${purpose.note.replace(/\.$/, "")})` : ""}? Judge by what you see: sharpness, tones, glare, dust. What cannot
            be seen here, such as the file's format, is not asked.
          </p>
        </div>
      </header>
      <form class="eye-answers" method="post" action={`/eye/${address}`}>
        <button class="button" type="submit" name="answer" value="left">
          Left is better
        </button>
        <button class="button button-quiet" type="submit" name="answer" value="cannot-tell">
          Cannot tell
        </button>
        <button class="button" type="submit" name="answer" value="right">
          Right is better
        </button>
      </form>
      <p class="hint eye-keys" hidden data-eye-keys>
        Keys, while an answer or a picture has the focus: <kbd>←</kbd> left, <kbd>→</kbd> right; <kbd>1</kbd> to <kbd>9</kbd> choose the
        close-up.
      </p>
      <div class="eye-pair">
        {(["left", "right"] as const).map((which) => (
          <figure>
            <figcaption>{which === "left" ? "Left" : "Right"}</figcaption>
            <a href={`/eye/${address}/${which}.jpg`}>
              <img
                src={`/eye/${address}/${which}.jpg`}
                width={Math.round(canvas.widthMm * 10)}
                height={Math.round(canvas.heightMm * 10)}
                alt={`The ${which} one, whole`}
              />
            </a>
          </figure>
        ))}
      </div>
      <div class="eye-pair" data-eye-close>
        {(["left", "right"] as const).map((which) => (
          <figure>
            <figcaption>{which === "left" ? "Left, close" : "Right, close"}</figcaption>
            <a href={`/eye/${address}/${which}-${place.key}.jpg`}>
              <img
                src={`/eye/${address}/${which}-${place.key}.jpg`}
                width={640}
                height={640}
                alt={`Close-up of the ${which} one, ${place.name}`}
              />
            </a>
          </figure>
        ))}
      </div>
      <nav class="eye-places" aria-label="Place of the close-up">
        <ul>
          {PLACES.map(({ key, name }) => (
            <li>
              <a href={`/eye/${address}?place=${key}`} data-eye-place={key} aria-current={key === place.key ? "true" : undefined}>
                {name}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <p>
        <a href={`/purposes/${purpose.key}#by-eye`}>Leave it for another time</a>
      </p>
    </div>
  </Layout>
);

/** The pictures are being made, or cannot be. */
export const EyeWaitPage = ({ collectionName, address, purpose, refused }: Common & { refused: boolean }) => (
  <Layout title="Which is better?" section={null} collectionName={collectionName} scripts={["eye-check.js"]} isAskedAgain={!refused}>
    <div class="page">
      <header class="page-head">
        <h1>Which is better?</h1>
      </header>
      {refused ? (
        <Notice level="warning" title="This pair cannot be shown">
          <p>
            The two could not be laid on each other, so that one place of the print might not lie at one place of the screen. Left out, the
            pair is counted neither for the rule nor against it.
          </p>
          <form class="actions" method="post" action={`/eye/${address}`}>
            <button class="button" type="submit" name="answer" value="not-shown">
              Leave it out
            </button>
          </form>
        </Notice>
      ) : (
        <section
          id="eye-wait"
          class="card"
          hx-get={`/eye/${address}`}
          hx-trigger="every 1500ms"
          hx-target="main"
          hx-select=".page"
          hx-swap="innerHTML"
        >
          <p>
            The two captures are being laid on each other, so that one place of the print lies at one place of the screen. This takes some
            seconds.
          </p>
          <p>
            <a href={`/eye/${address}`}>Look again</a>
          </p>
        </section>
      )}
      <p>
        <a href={`/purposes/${purpose.key}#by-eye`}>Leave it for another time</a>
      </p>
    </div>
  </Layout>
);

type Named = { readonly id: number; readonly name: string };

export type EyeAnswerPageProps = Common & {
  print: { readonly id: number; readonly objectNumber: string; readonly title: string } | null;
  side: "front" | "back";
  left: Named;
  right: Named;
  answer: "left" | "right" | "cannot-tell" | "not-shown" | null;
  /** null: neither */
  picked: Named | null;
  rule: Named;
  decisive: string | null;
  closeCall: boolean;
};

/** What the two were, told only after the answer is kept. */
export function EyeAnswerPage(props: EyeAnswerPageProps) {
  const { purpose, print, side, left, right, picked, rule, decisive, closeCall } = props;
  const agrees = picked === null ? null : picked.id === rule.id;
  const reason = `By eye, blind: ${picked?.name} is better than ${picked?.id === left.id ? right.name : left.name}.`;
  return (
    <Layout title="Your answer" section={null} collectionName={props.collectionName}>
      <div class="page page-narrow">
        <header class="page-head">
          <div>
            <h1>
              {picked === null
                ? props.answer === "cannot-tell"
                  ? "You could not tell them apart"
                  : "This pair was left out"
                : `You found ${picked.id === left.id ? "the left" : "the right"} one better`}
            </h1>
            {print ? (
              <p>
                <a href={`/prints/${print.id}#master-${side}-${purpose.key}`}>
                  <span class="object-number">{print.objectNumber}</span> {print.title}
                </a>
                , for: {purposeInSentence(purpose)}
              </p>
            ) : null}
          </div>
        </header>
        <section class="card">
          <dl class="facts">
            <dt>Left</dt>
            <dd>
              <a href={`/captures/${left.id}`}>{left.name}</a>
            </dd>
            <dt>Right</dt>
            <dd>
              <a href={`/captures/${right.id}`}>{right.name}</a>
            </dd>
            <dt>The rule</dt>
            <dd>
              prefers {rule.name}
              {decisive === null ? "" : `, above all for its ${measureInWords(decisive)}`}
              {closeCall ? "; it calls this too close to call" : ""}.
            </dd>
          </dl>
          <p>
            {agrees === null
              ? "An answer that cannot tell is counted apart."
              : agrees
                ? "The rule and your eye agree. The answer is kept."
                : "The rule and your eye differ. The answer is kept."}
          </p>
          {agrees === false && picked && print ? (
            <form method="post" action={`/prints/${print.id}/master`}>
              <input type="hidden" name="side" value={side} />
              <input type="hidden" name="purposeKey" value={purpose.key} />
              <input type="hidden" name="captureId" value={String(picked.id)} />
              <input type="hidden" name="reason" value={reason} />
              <button class="button button-quiet" type="submit">
                Make {picked.name} the master
              </button>
              <p class="hint">With the reason: {reason}</p>
            </form>
          ) : null}
        </section>
        <form class="actions" method="post" action="/eye">
          <input type="hidden" name="purposeKey" value={purpose.key} />
          <button class="button" type="submit" autofocus>
            Next pair
          </button>
          <a href={`/purposes/${purpose.key}#by-eye`}>Enough for now</a>
        </form>
      </div>
    </Layout>
  );
}
