// Places can be drawn on the picture with pointer, finger or keyboard. Without this script the same numbers are typed.

const pictures = new Map([...document.querySelectorAll("[data-marked-side]")].map((figure) => [figure.dataset.markedSide, figure]));
const fields = [...document.querySelectorAll('textarea[name$=".regions"]')];
if (pictures.size > 0) for (const field of fields) offer(field);

function offer(field) {
  const button = element("button", { type: "button", class: "button button-quiet mark-button" }, "Mark on the picture");
  const words = element("p", { class: "hint", role: "status" });
  field.after(button, words);
  button.addEventListener("click", () => {
    const side = sideOf(field);
    const figure = pictures.get(side);
    words.textContent = figure ? "" : `There is no picture of the ${side} to mark on; type the numbers.`;
    if (figure) openMarking(field, figure, side);
  });
}

function sideOf(field) {
  const group = field.closest("fieldset");
  return group?.dataset.side ?? group?.querySelector('select[name$=".side"]')?.value ?? "front";
}

function openMarking(field, figure, side) {
  const widthMm = Number(figure.dataset.widthMm);
  const heightMm = Number(figure.dataset.heightMm);
  const { regions, strange } = readField(field.value);
  const nearMm = Math.max(widthMm, heightMm) / 50;
  let corners = [];
  let cross = { x: widthMm / 2, y: heightMm / 2 };
  let pressedAt = null;

  const dialog = element("dialog", { class: "marking", "aria-labelledby": "marking-title" });
  const title = element(
    "h2",
    { id: "marking-title" },
    `Mark: ${field.closest("fieldset")?.querySelector("legend")?.textContent ?? "places"}`,
  );
  const how = element(
    "p",
    { id: "marking-how", class: "small" },
    "Drag a rectangle, or choose outline and tap its corners. By keyboard: arrow keys move the cross by 1 mm (with Shift 10, with Alt 0.1), Enter sets a corner, C closes an outline, Backspace takes back the last.",
  );
  const rectangle = radio("Rectangle", "rectangle", true);
  const outline = radio("Outline", "outline", false);
  const kinds = element("p", { class: "marking-kinds", role: "radiogroup", "aria-label": "Shape" });
  kinds.append(rectangle.label, outline.label);
  const surface = element("div", {
    class: "marking-surface",
    tabindex: "0",
    role: "application",
    "aria-label": `Picture of the ${side}, ${widthMm} by ${heightMm} mm`,
    "aria-describedby": "marking-how",
  });
  const overlay = svg("svg", { class: "marked-overlay", viewBox: `0 0 ${widthMm} ${heightMm}`, "aria-hidden": "true" });
  const picture = element("img", { src: figure.querySelector("img").src, alt: "", draggable: "false" });
  surface.append(picture, overlay);
  const live = element("p", { class: "marking-words", "aria-live": "polite" });
  const close = element("button", { type: "button", class: "button button-quiet" }, "Close the outline");
  const back = element("button", { type: "button", class: "button button-quiet" }, "Take back the last");
  const done = element("button", { type: "button", class: "button" }, "Done");
  const foot = element("p", { class: "actions" });
  foot.append(done, close, back);
  dialog.append(title, how, kinds, surface, live, foot);
  document.body.append(dialog);

  const isOutline = () => outline.input.checked;
  for (const { input } of [rectangle, outline]) {
    input.addEventListener("change", () => {
      corners = [];
      tell(isOutline() ? "Outline: set its corners one after another." : "Rectangle: set two opposite corners.");
    });
  }
  close.addEventListener("click", () => closeOutline());
  back.addEventListener("click", () => takeBack());
  done.addEventListener("click", () => dialog.close());
  dialog.addEventListener("close", () => {
    dialog.remove();
    field.focus();
  });

  surface.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    surface.setPointerCapture(event.pointerId);
    pressedAt = placeOf(event);
    cross = pressedAt;
    draw();
  });
  surface.addEventListener("pointermove", (event) => {
    if (!pressedAt) return;
    cross = placeOf(event);
    draw();
  });
  surface.addEventListener("pointercancel", () => {
    pressedAt = null;
    draw();
  });
  surface.addEventListener("pointerup", (event) => {
    if (!pressedAt) return;
    const from = pressedAt;
    pressedAt = null;
    cross = placeOf(event);
    const isDragged = Math.hypot(cross.x - from.x, cross.y - from.y) > nearMm / 2;
    if (!isOutline() && isDragged && corners.length === 0) addRegion([from, cross]);
    else setCorner();
  });
  surface.addEventListener("keydown", (event) => {
    const step = event.shiftKey ? 10 : event.altKey ? 0.1 : 1;
    const moves = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] };
    const move = moves[event.key];
    if (move) {
      cross = within({ x: cross.x + move[0], y: cross.y + move[1] });
      tell(inWords(cross));
    } else if (event.key === "Enter" || event.key === " ") setCorner();
    else if (event.key.toLowerCase() === "c" && !event.ctrlKey && !event.metaKey) closeOutline();
    else if (event.key === "Backspace" || event.key === "Delete") takeBack();
    else return;
    event.preventDefault();
  });

  function setCorner() {
    const [first] = corners;
    if (isOutline() && corners.length >= 3 && Math.hypot(cross.x - first.x, cross.y - first.y) < nearMm) return closeOutline();
    corners.push(cross);
    if (!isOutline() && corners.length === 2) return addRegion(corners);
    tell(`Corner ${corners.length} at ${inWords(cross)}.`);
  }

  function closeOutline() {
    if (corners.length < 3) return tell("An outline needs three corners or more.");
    addRegion(corners);
  }

  function addRegion(made) {
    corners = [];
    if (new Set(made.map(({ x }) => x)).size < 2 || new Set(made.map(({ y }) => y)).size < 2)
      return tell("That has no area. Nothing was marked.");
    regions.push(made);
    write();
    tell(`Marked: ${regions.length === 1 ? "one place" : `${regions.length} places`}.`);
  }

  function takeBack() {
    if (corners.length > 0) {
      corners.pop();
      return tell(corners.length === 0 ? "No corner is set." : `${corners.length} set.`);
    }
    if (!regions.pop()) return tell("Nothing is marked.");
    write();
    tell(`Taken back. ${regions.length === 0 ? "Nothing is marked." : `${regions.length} left.`}`);
  }

  /** What this script could not read stays as it was typed. */
  function write() {
    const lines = regions.map((region) => region.map(({ x, y }) => `${x},${y}`).join(" "));
    field.value = [...lines, ...strange].join("\n");
    field.rows = Math.min(6, Math.max(1, regions.length + strange.length));
    field.dispatchEvent(new Event("input", { bubbles: true }));
  }

  function placeOf(event) {
    const box = picture.getBoundingClientRect();
    return within({ x: ((event.clientX - box.left) / box.width) * widthMm, y: ((event.clientY - box.top) / box.height) * heightMm });
  }

  function within({ x, y }) {
    const bound = (value, most) => Math.round(Math.min(most, Math.max(0, value)) * 10) / 10;
    return { x: bound(x, widthMm), y: bound(y, heightMm) };
  }

  function tell(words) {
    live.textContent = words;
    draw();
  }

  function draw() {
    overlay.replaceChildren();
    for (const region of regions) shape("polygon", region.length === 2 ? boxOf(region) : region);
    const open = pressedAt && !isOutline() && corners.length === 0 ? [pressedAt] : corners;
    if (open.length > 0) {
      if (isOutline()) shape("polyline", [...open, cross]);
      else shape("polygon", boxOf([open[0], cross]));
    }
    const arm = nearMm;
    for (const name of ["mark-halo", "mark-line"]) {
      const path = `M${cross.x - arm},${cross.y}h${2 * arm}M${cross.x},${cross.y - arm}v${2 * arm}`;
      overlay.append(svg("path", { class: name, d: path, "vector-effect": "non-scaling-stroke" }));
    }
  }

  function shape(kind, points) {
    const all = points.map(({ x, y }) => `${x},${y}`).join(" ");
    for (const name of ["mark-halo", "mark-line"])
      overlay.append(svg(kind, { class: name, points: all, "vector-effect": "non-scaling-stroke" }));
  }

  dialog.showModal();
  surface.focus();
  tell(`The cross is at ${inWords(cross)}.`);
}

const boxOf = ([a, b]) => [a, { x: b.x, y: a.y }, b, { x: a.x, y: b.y }];

const inWords = ({ x, y }) => `${x} mm from the left, ${y} mm from the top`;

function readField(text) {
  const regions = [];
  const strange = [];
  for (const line of text.split("\n").map((each) => each.trim())) {
    if (line === "") continue;
    const corners = line.split(/\s+/).map((pair) => /^(\d+(?:\.\d+)?),(\d+(?:\.\d+)?)$/.exec(pair));
    if (corners.length < 2 || corners.includes(null)) strange.push(line);
    else regions.push(corners.map(([, x, y]) => ({ x: Number(x), y: Number(y) })));
  }
  return { regions, strange };
}

function radio(words, value, isChosen) {
  const label = element("label", {});
  const input = element("input", { type: "radio", name: "marking-kind", value });
  input.checked = isChosen;
  label.append(input, ` ${words}`);
  return { label, input };
}

function element(name, attributes, text) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  if (text !== undefined) made.textContent = text;
  return made;
}

function svg(name, attributes) {
  const made = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}
