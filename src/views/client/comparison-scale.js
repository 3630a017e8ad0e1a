// How many pixels of the page make a millimetre of the screen. Browsers take 96 for an inch (CSS Values and Units 4, 6.2), whatever the
// screen; a card held against it tells the truth.

const BY_STANDARD = 96 / 25.4;
/** ISO/IEC 7810, ID-1. */
const CARD_MM = 85.6;
/** kept in pixels of the screen, so that it holds when the page itself is enlarged */
const KEY = "screen-px-per-mm";

export function cssPxPerMm() {
  const kept = Number(stored());
  return kept > 0 ? kept / devicePixelRatio : BY_STANDARD;
}

/** Wires the bar that is made as long as a card is wide. */
export function offerCard(root, onSet) {
  const range = root.querySelector("[data-card]");
  const bar = root.querySelector("[data-card-bar]");
  if (!range || !bar) return;
  const draw = () => {
    range.value = String(Math.round(CARD_MM * cssPxPerMm()));
    bar.style.inlineSize = `${CARD_MM * cssPxPerMm()}px`;
  };
  range.addEventListener("input", () => {
    store(String((Number(range.value) / CARD_MM) * devicePixelRatio));
    draw();
    onSet();
  });
  root.querySelector("[data-card-reset]").addEventListener("click", () => {
    store(null);
    draw();
    onSet();
  });
  draw();
}

/** A browser may refuse to keep anything. */
function stored() {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}

function store(value) {
  try {
    if (value === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, value);
  } catch {
    // then it holds for this page alone, by standard
  }
}
