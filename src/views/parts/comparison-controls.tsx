import type { LookedAt } from "./comparison-panes.tsx";

/** What is done with the pictures, in words; each has its key. Shown by client/comparison.js. */
export function ComparisonControls({ looked }: { looked: readonly LookedAt[] }) {
  return (
    <div class="comparison-controls" hidden>
      <fieldset class="comparison-group">
        <legend class="visually-hidden">View</legend>
        <span class="comparison-label" aria-hidden="true">
          View
        </span>
        <Press view="beside" key_="s" words="Side by side" />
        <Press view="single" key_="space" words="One at a time" />
        <Press view="wipe" key_="w" words="Wipe" />
        <Press view="difference" key_="d" words="Difference" />
      </fieldset>
      <fieldset class="comparison-group" data-for="single">
        <legend class="visually-hidden">Capture shown</legend>
        <span class="comparison-label" aria-hidden="true">
          Capture
        </span>
        {looked.map(({ number, capture }) => (
          <button
            type="button"
            class="button button-quiet"
            data-show={number}
            aria-pressed="false"
            title={`Key ${number}: ${capture.name}`}
          >
            {number} <span class="comparison-name">{capture.name}</span>
          </button>
        ))}
      </fieldset>
      <fieldset class="comparison-group" data-for="wipe difference">
        <legend class="visually-hidden">Captures held against each other</legend>
        <Which name="first" words="Left" looked={looked} />
        <Which name="second" words="Right" looked={looked} />
        <label data-for="wipe">
          Line at
          <input type="range" min="0" max="100" value="50" data-wipe-at aria-label="Where the line stands, percent from the left" />
        </label>
        <label data-for="difference">
          Differences
          <select data-gain>
            <option value="1" selected>
              as they are
            </option>
            <option value="4">4 times as strong</option>
            <option value="16">16 times as strong</option>
          </select>
        </label>
      </fieldset>
    </div>
  );
}

/** How large the pictures are shown. Shown by client/comparison.js. */
export const ComparisonSizes = ({ isSizeKnown }: { isSizeKnown: boolean }) => (
  <fieldset class="comparison-group" hidden>
    <legend class="visually-hidden">Size</legend>
    <span class="comparison-label" aria-hidden="true">
      Size
    </span>
    <Size to="whole" key_="f" words="Whole print" />
    {isSizeKnown ? <Size to="print" key_="p" words="Print size" /> : null}
    {isSizeKnown ? <Size to="300" key_="e" words="300 %" /> : null}
    <Size to="pixel" key_="c" words="Capture pixels" />
    <button type="button" class="button button-quiet comparison-step" data-step="-1" aria-label="Smaller" title="Key −">
      −
    </button>
    <button type="button" class="button button-quiet comparison-step" data-step="1" aria-label="Larger" title="Key +">
      +
    </button>
    <output class="comparison-scale" data-scale />
  </fieldset>
);

const Press = ({ view, key_, words }: { view: string; key_: string; words: string }) => (
  <button type="button" class="button button-quiet" data-set-view={view} aria-pressed={view === "beside" ? "true" : "false"}>
    {words} <kbd>{key_}</kbd>
  </button>
);

const Size = ({ to, key_, words }: { to: string; key_: string; words: string }) => (
  <button type="button" class="button button-quiet" data-size={to}>
    {words} <kbd>{key_}</kbd>
  </button>
);

const Which = ({ name, words, looked }: { name: "first" | "second"; words: string; looked: readonly LookedAt[] }) => (
  <label>
    {words}
    <select data-which={name}>
      {looked.map(({ number, capture }) => (
        <option value={number} selected={number === (name === "first" ? 1 : 2)}>
          {number} {capture.name}
        </option>
      ))}
    </select>
  </label>
);

/** The screen's own scale, by a card that nearly everybody has at hand (ISO/IEC 7810, ID-1: 85.60 mm wide). */
export const ScreenScale = () => (
  <details class="comparison-card" hidden>
    <summary>Make print size true on this screen</summary>
    <p>
      Browsers take 96 pixels for an inch, whatever the screen. Hold a bank card against the screen and make the bar as long as the card is
      wide (85.60 mm). It is kept in this browser.
    </p>
    <div class="comparison-bar" data-card-bar>
      <span>85.60 mm</span>
    </div>
    <label>
      Length of the bar
      <input type="range" min="180" max="900" step="1" data-card />
    </label>
    <button type="button" class="button button-quiet button-small" data-card-reset>
      Back to 96 pixels per inch
    </button>
  </details>
);

/** What is used most, where it is seen; for touch screens what fingers do. */
export const ComparisonHint = () => (
  <p class="comparison-hint" data-hint hidden>
    <span class="comparison-by-key">
      Keys: <kbd>space</kbd> the next capture at the same place, <kbd>←</kbd> <kbd>↑</kbd> <kbd>→</kbd> <kbd>↓</kbd> move, <kbd>+</kbd>{" "}
      <kbd>−</kbd> zoom. They work while the pictures or these controls have the focus.
    </span>
    <span class="comparison-by-touch">One finger moves, two fingers zoom, all pictures together.</span>
  </p>
);

/** Every key in one list, for those who look for them. */
export const ComparisonKeys = ({ isSizeKnown }: { isSizeKnown: boolean }) => (
  <details class="comparison-keys" hidden>
    <summary>All keys</summary>
    <p class="small">They work while the pictures or their controls have the focus: click them, or go there with the tab key.</p>
    <dl class="facts">
      {[
        ["Arrows", "move; with shift, farther"],
        ["+ and −", "larger, smaller"],
        ["Space", "the next capture, at the same place"],
        ["1 to 4", "that capture"],
        ["S, W, D", "side by side, wipe, difference"],
        ["F", "the whole print"],
        ...(isSizeKnown ? [["P, E", "print size, 300 %"]] : []),
        ["T", "tones as captured, or all as in the reference"],
        ["L", "what is drawn over the captures, on or off"],
        ["C", "one pixel of the first capture shown to one of the screen"],
        ["[ and ]", "the wiping line to the left, to the right"],
      ].map(([keys, does]) => (
        <>
          <dt>{keys}</dt>
          <dd>{does}</dd>
        </>
      ))}
    </dl>
  </details>
);
