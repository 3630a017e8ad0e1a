import type { CloseUp, CloseUpKind } from "#domain/comparison/close-up-places.ts";
import type { LaidSide } from "#domain/comparison/laid-side.ts";
import type { LookedAt } from "./comparison-panes.tsx";

const WORDS: Readonly<Record<CloseUpKind, { title: string; look: string }>> = {
  border: { title: "Border in a corner", look: "Texture of the paper tells how much fine detail a capture keeps, and its noise and dust." },
  edge: { title: "Edge of the picture", look: "How quickly dark turns to light; a bright or dark line along it is sharpening." },
  detail: { title: "Finest detail", look: "Where all captures together show most of it." },
  shadow: { title: "Deepest shadow", look: "Whether tones are still told apart, or run together in black or in noise." },
};

type Props = { address: string; laid: LaidSide; looked: readonly LookedAt[]; isMatched: boolean };

/** The same few places of every capture beside each other, at one scale. */
export const ComparisonCloseUps = (props: Props) => (
  <section class="comparison-close-ups" aria-labelledby="close-ups-title">
    <details class="comparison-fold" open data-fold-on-phone>
      <summary>
        <h2 id="close-ups-title">Looked at closely</h2>
      </summary>
      <p class="hint">
        Each square is {props.laid.isSizeKnown ? `${props.laid.closeUpMm} mm of the print` : "the same part of the print"} wide. The places
        were chosen by what all of the captures show.
      </p>
      {props.laid.closeUps.map((closeUp) => (
        <OneCloseUp {...props} closeUp={closeUp} />
      ))}
    </details>
  </section>
);

function OneCloseUp({ address, looked, isMatched, closeUp }: Props & { closeUp: CloseUp }) {
  const { title, look } = WORDS[closeUp.kind];
  const [x, y] = [closeUp.xMm.toFixed(2), closeUp.yMm.toFixed(2)];
  const source = (pictures: string, tone: boolean) => `${pictures}/close-ups/${closeUp.kind}.jpg${tone ? "?tone=matched" : ""}`;
  return (
    <section class="comparison-close-up" aria-labelledby={`close-up-${closeUp.kind}`}>
      <h3 id={`close-up-${closeUp.kind}`}>{title}</h3>
      <p class="small">
        {look}{" "}
        <a class="comparison-go" href={`${address}#stage`} data-at={`${x},${y}`} hidden>
          Show this place above
        </a>
      </p>
      <div class="comparison-squares" data-count={looked.length}>
        {looked.map(({ number, capture, pictures, laid: each }) => (
          <figure>
            <img
              src={source(pictures, isMatched && each.toneCurve !== null)}
              data-plain={source(pictures, false)}
              data-matched={source(pictures, each.toneCurve !== null)}
              width="480"
              height="480"
              loading="lazy"
              alt={`${title}, capture ${number}`}
            />
            <figcaption>
              <b class="comparison-number">{number}</b> {capture.name}
            </figcaption>
          </figure>
        ))}
      </div>
    </section>
  );
}

/** For each capture the curve that brings its tones to the reference's, as a filter that client/comparison.js lays over its pictures. */
export const ToneFilters = ({ looked }: { looked: readonly LookedAt[] }) => (
  <svg class="comparison-filters" width="0" height="0" aria-hidden="true">
    {looked.map(({ number, laid: { toneCurve } }) =>
      toneCurve ? (
        <filter id={`tones-${number}`} color-interpolation-filters="sRGB" x="0" y="0" width="100%" height="100%">
          <feComponentTransfer>
            <feFuncR type="table" tableValues={toneCurve.join(" ")} />
            <feFuncG type="table" tableValues={toneCurve.join(" ")} />
            <feFuncB type="table" tableValues={toneCurve.join(" ")} />
          </feComponentTransfer>
        </filter>
      ) : null,
    )}
  </svg>
);
