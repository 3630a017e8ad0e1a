// Looks at captures of a print together: they zoom and move as one, side by side, one at a time, with a wiping line between two, or as
// the difference of two. What is shown stands in the address. Without this script the captures stand side by side as they are.

import { keepInAddress, readAddress } from "./comparison-address.js";
import { openPanes } from "./comparison-panes.js";
import { cssPxPerMm, offerCard } from "./comparison-scale.js";

const LARGER = 1.25;
const MOVE_PX = 60;
const FAR = 5;

// the page asks for itself while captures are being laid, and is swapped in
document.addEventListener("htmx:after:swap", begin);
begin();

function begin() {
  for (const root of document.querySelectorAll("[data-comparison]:not([data-begun])")) {
    root.dataset.begun = "yes";
    start(root);
  }
}

async function start(root) {
  const told = JSON.parse(root.dataset.comparison);
  const { canvas, sheetMm, isSizeKnown, captures } = told;
  const stage = root.querySelector(".comparison-stage");
  const asked = readAddress(captures.length, canvas, sheetMm);
  const state = { ...asked };
  // panes have their sizes before pictures are opened in them
  stage.dataset.view = state.view;
  stage.dataset.zooms = "yes";
  stage.style.setProperty("--canvas-ratio", canvas.widthMm / canvas.heightMm);
  const panes = await openPanes(stage, told, changed);

  for (const hidden of root.querySelectorAll("[hidden]")) hidden.hidden = false;
  stage.tabIndex = 0;
  stage.setAttribute("role", "group");
  stage.setAttribute("aria-label", "Pictures of the captures. Arrows move, plus and minus zoom; all keys stand below.");
  // who asked for this page came to look: keys work from the start, unless something else has the focus already
  if (document.activeElement === document.body) stage.focus({ preventScroll: true });

  const anyLayer = root.querySelector("#layer-any");
  const capture = (number) => captures[number - 1];
  const pxPerMmOf = {
    whole: () => panes.wholePxPerMm(),
    print: () => cssPxPerMm(),
    300: () => 3 * cssPxPerMm(),
    pixel: () => capture(state.view === "beside" ? 1 : state.view === "single" ? state.show : state.first).ownPxPerMm / devicePixelRatio,
  };

  show();
  if (asked.percent === null) panes.showWhole();
  else panes.moveTo({ x: asked.x, y: asked.y, pxPerMm: isSizeKnown ? (asked.percent / 100) * cssPxPerMm() : asked.percent }, true);
  offerCard(root, changed);

  root.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button) return;
    const { setView, size, step, show: number } = button.dataset;
    if (setView) setViewTo(setView);
    if (size) resize(size);
    if (step) panes.zoomBy(LARGER ** Number(step));
    if (number) showOnly(Number(number));
  });
  for (const link of document.querySelectorAll("[data-tone]"))
    link.addEventListener("click", (event) => {
      event.preventDefault();
      setTones(link.dataset.tone);
    });
  for (const link of document.querySelectorAll(".comparison-go")) {
    link.hidden = false;
    link.addEventListener("click", (event) => {
      event.preventDefault();
      const [x, y] = link.dataset.at.split(",").map(Number);
      panes.moveTo({ x: x + canvas.leftMm, y: y + canvas.topMm, pxPerMm: Math.max(panes.place().pxPerMm, pxPerMmOf.pixel()) }, true);
      stage.focus();
      stage.scrollIntoView({ block: "nearest" });
    });
  }
  root.addEventListener("change", (event) => {
    const { which } = event.target.dataset;
    if (which) state[which] = Number(event.target.value);
    if (event.target.matches("[data-gain]")) state.gain = Number(event.target.value);
    show();
  });
  root.querySelector("[data-wipe-at]").addEventListener("input", (event) => {
    state.wipeAt = Number(event.target.value);
    show();
  });
  dragLine();
  // single letters act only where the pictures or their controls have the focus (WCAG 2.2, 2.1.4), and never in place of a control's own keys
  root.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey || isOfControl(event) || !onKey(event)) return;
    event.preventDefault();
    event.stopPropagation();
  });

  /** Whether the key does something here. */
  function onKey({ key, shiftKey }) {
    const far = shiftKey ? FAR : 1;
    const moves = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    if (moves[key]) panes.moveBy(...moves[key].map((way) => way * far * MOVE_PX));
    else if (key === "+" || key === "=") panes.zoomBy(LARGER);
    else if (key === "-") panes.zoomBy(1 / LARGER);
    else if (key === " ") showOnly(state.view === "single" ? (state.show % captures.length) + 1 : state.show);
    else if (/^[1-9]$/.test(key) && Number(key) <= captures.length) showOnly(Number(key));
    else if (key.toLowerCase() === "t" && root.querySelector("[data-tone]")) setTones(state.tones === "plain" ? "matched" : "plain");
    else if (key.toLowerCase() === "l" && anyLayer) anyLayer.click();
    else if (key === "[" || key === "]") wipeTo(state.wipeAt + (key === "]" ? 2 : -2));
    else {
      const view = { s: "beside", w: "wipe", d: "difference" }[key.toLowerCase()];
      const size = { f: "whole", c: "pixel", ...(isSizeKnown && { p: "print", e: "300" }) }[key.toLowerCase()];
      if (!view && !size) return false;
      if (view) setViewTo(view);
      if (size) resize(size);
    }
    return true;
  }

  function setViewTo(view) {
    state.view = view;
    show();
    tell();
  }

  function showOnly(number) {
    state.view = "single";
    state.show = number;
    show();
    tell();
  }

  function setTones(tones) {
    state.tones = tones;
    show();
    root.querySelector("[data-told]").textContent = tones === "matched" ? "Tones are those of the reference." : "Tones are as captured.";
  }

  function resize(to) {
    if (to === "whole") panes.showWhole();
    else panes.zoomTo(pxPerMmOf[to]());
  }

  function wipeTo(percent) {
    state.wipeAt = Math.min(100, Math.max(0, percent));
    state.view = "wipe";
    show();
  }

  /** The line between two captures follows the pointer that takes hold of it. */
  function dragLine() {
    const line = stage.appendChild(document.createElement("div"));
    line.className = "comparison-line";
    line.addEventListener("pointerdown", (event) => {
      line.setPointerCapture(event.pointerId);
      event.preventDefault();
    });
    line.addEventListener("pointermove", (event) => {
      if (!line.hasPointerCapture(event.pointerId)) return;
      const box = stage.getBoundingClientRect();
      wipeTo((100 * (event.clientX - box.left)) / box.width);
    });
  }

  /** Brings the page to what the state says. */
  function show() {
    if (state.first === state.second) state.second = (state.first % captures.length) + 1;
    stage.dataset.view = state.view;
    stage.style.setProperty("--wipe-at", `${state.wipeAt}%`);
    stage.style.setProperty("--gain", state.gain);
    showTones();
    const roles = { single: { [state.show]: "shown" }, wipe: pair(), difference: pair() }[state.view] ?? {};
    for (const pane of stage.querySelectorAll(".comparison-pane")) pane.dataset.role = roles[pane.dataset.number] ?? "";
    for (const button of root.querySelectorAll("[data-set-view]"))
      button.setAttribute("aria-pressed", String(button.dataset.setView === state.view));
    for (const button of root.querySelectorAll("[data-show]"))
      button.setAttribute("aria-pressed", String(state.view === "single" && Number(button.dataset.show) === state.show));
    for (const part of root.querySelectorAll("[data-for]")) part.hidden = !part.dataset.for.split(" ").includes(state.view);
    for (const which of ["first", "second"]) root.querySelector(`[data-which="${which}"]`).value = String(state[which]);
    root.querySelector("[data-wipe-at]").value = String(state.wipeAt);
    root.querySelector("[data-gain]").value = String(state.gain);
    changed();
  }

  /** Panes are filtered here; close-ups come filtered. */
  function showTones() {
    const isMatched = state.tones === "matched";
    for (const pane of stage.querySelectorAll(".comparison-pane")) {
      const filter = document.getElementById(`tones-${pane.dataset.number}`);
      pane.querySelector(".comparison-tiles").style.filter = isMatched && filter ? `url("#${filter.id}")` : "";
    }
    for (const picture of document.querySelectorAll("[data-matched]")) {
      const source = isMatched ? picture.dataset.matched : picture.dataset.plain;
      if (picture.getAttribute("src") !== source) picture.src = source;
    }
    for (const link of root.querySelectorAll("[data-tone]")) {
      if (link.dataset.tone === state.tones) link.setAttribute("aria-current", "true");
      else link.removeAttribute("aria-current");
    }
  }

  function pair() {
    return { [state.first]: "under", [state.second]: "over" };
  }

  /** Says the size that is shown and keeps place and view in the address. */
  function changed() {
    const { x, y, pxPerMm } = panes.place();
    const percent = isSizeKnown ? (100 * pxPerMm) / cssPxPerMm() : pxPerMm;
    root.querySelector("[data-scale]").textContent = isSizeKnown ? `${Math.round(percent)} % of print size` : "";
    const at = panes.isWhole() ? null : { x: x - canvas.leftMm, y: y - canvas.topMm, percent };
    const drawn = [...root.querySelectorAll("[data-layer]:checked")].map((box) => box.dataset.layer);
    keepInAddress({ ...state, drawn }, at);
  }

  function tell() {
    const name = (number) => `capture ${number}, ${capture(number).name}`;
    root.querySelector("[data-told]").textContent = {
      beside: "Side by side.",
      single: `Shown: ${name(state.show)}.`,
      wipe: `Wipe: left ${name(state.first)}; right ${name(state.second)}.`,
      difference: `Difference of ${name(state.first)} and ${name(state.second)}.`,
    }[state.view];
  }
}

/** Fields take every key; what can be pressed or opened takes the space bar. */
function isOfControl({ key, target }) {
  return target.matches("input, select, textarea") || (key === " " && target.closest("button, a, summary") !== null);
}
