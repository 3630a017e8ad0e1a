// Drags the corners of prints over the picture of a capture. What is dragged is written into the number fields of the form, which
// work without this script too. A form names its picture with data-corners-of; the frame's size in pixels stands on the picture.

const CORNERS = { topLeft: "top left", topRight: "top right", bottomRight: "bottom right", bottomLeft: "bottom left" };
const SVG = "http://www.w3.org/2000/svg";
const CLOSE_UP_PX = 400;
const SETTLED_MS = 180;

for (const form of document.querySelectorAll("form[data-corners-of]")) edit(form);

function edit(form) {
  const stage = document.getElementById(form.dataset.cornersOf);
  const picture = stage?.querySelector("img");
  if (!picture) return;
  const frame = { width: Number(stage.dataset.widthPx), height: Number(stage.dataset.heightPx) };
  stage.classList.add("corner-stage");
  for (const shown of stage.querySelectorAll("svg")) shown.remove();
  stage.addEventListener("dragstart", (event) => event.preventDefault());
  const drawing = stage.appendChild(document.createElementNS(SVG, "svg"));
  drawing.setAttribute("viewBox", `-0.5 -0.5 ${frame.width} ${frame.height}`);
  drawing.setAttribute("preserveAspectRatio", "none");
  drawing.setAttribute("class", "outline-overlay");
  drawing.setAttribute("aria-hidden", "true");
  const told = form.appendChild(document.createElement("p"));
  told.className = "visually-hidden";
  told.setAttribute("aria-live", "polite");
  const loupe = closeUp(stage, frame);
  const tools = { form, stage, picture, frame, drawing, loupe, tell: (words) => (told.textContent = words) };
  for (const fields of form.querySelectorAll("[data-part]")) editPart(fields, tools);
  allowDrawing(tools);
}

function editPart(fields, { stage, picture, frame, drawing, loupe, tell }) {
  const part = fields.dataset.part;
  const field = (corner, axis) => fields.querySelector(`[data-corner="${corner}"][data-axis="${axis}"]`);
  const numberIn = (corner, axis) => cornerNumber(field(corner, axis).value);
  const placeOf = (corner) => ({ x: numberIn(corner, "x"), y: numberIn(corner, "y") });
  const halo = drawing.appendChild(document.createElementNS(SVG, "polygon"));
  const line = drawing.appendChild(document.createElementNS(SVG, "polygon"));
  halo.setAttribute("class", "line-halo");
  line.setAttribute("class", "line layer-corners");
  for (const shape of [halo, line]) shape.setAttribute("vector-effect", "non-scaling-stroke");
  const number = drawing.appendChild(document.createElementNS(SVG, "text"));
  number.setAttribute("class", "figure");
  number.setAttribute("text-anchor", "middle");
  number.setAttribute("font-size", Math.min(frame.width, frame.height) / 14);
  if (stage.id.startsWith("bed")) number.textContent = part;
  const handles = {};

  const show = () => {
    const points = Object.keys(CORNERS).map(placeOf);
    const isWhole = points.every(isPlace);
    for (const shown of [halo, line, number]) shown.style.display = isWhole ? "" : "none";
    if (isWhole) {
      for (const shape of [halo, line]) shape.setAttribute("points", points.map(({ x, y }) => `${x},${y}`).join(" "));
      for (const axis of ["x", "y"])
        number.setAttribute(
          axis,
          points.reduce((sum, point) => sum + point[axis] / 4, 0),
        );
    }
    const sides = points.map(({ x, y }, at) => Math.hypot(x - points[(at + 1) % 4].x, y - points[(at + 1) % 4].y)).filter(Number.isFinite);
    for (const [corner, handle] of Object.entries(handles)) {
      const { x, y } = placeOf(corner);
      // a corner that cannot be read stands nowhere, rather than at a place that nobody wrote
      handle.hidden = !isPlace({ x, y });
      if (handle.hidden) continue;
      // of the stage's width: no handle reaches the next corner of its print; of opposite corners alone no side is known, and each is full size
      if (sides.length > 0) handle.style.setProperty("--most", `${(48 * Math.min(...sides)) / frame.width}%`);
      else handle.style.removeProperty("--most");
      handle.style.insetInlineStart = `${(100 * (x + 0.5)) / frame.width}%`;
      handle.style.insetBlockStart = `${(100 * (y + 0.5)) / frame.height}%`;
      handle.setAttribute("aria-label", `Part ${part}, ${CORNERS[corner]} corner, ${Math.round(x)} across, ${Math.round(y)} down`);
    }
  };

  const move = (corner, x, y) => {
    field(corner, "x").value = within(x, frame.width - 1).toFixed(1);
    field(corner, "y").value = within(y, frame.height - 1).toFixed(1);
    show();
    loupe.at(placeOf(corner));
  };

  for (const corner of Object.keys(CORNERS)) {
    const handle = stage.appendChild(document.createElement("button"));
    handle.type = "button";
    handle.className = "corner-handle";
    handle.dataset.handle = `${part}-${corner}`;
    handles[corner] = handle;
    let grip = null;
    handle.addEventListener("pointerdown", (event) => {
      if (event.button !== 0) return;
      handle.setPointerCapture(event.pointerId);
      const at = placeOf(corner);
      grip = { x: at.x - acrossOf(event, picture, frame), y: at.y - downOf(event, picture, frame) };
      loupe.at(at);
    });
    handle.addEventListener("pointermove", (event) => {
      if (grip) move(corner, acrossOf(event, picture, frame) + grip.x, downOf(event, picture, frame) + grip.y);
    });
    const end = () => {
      grip = null;
    };
    handle.addEventListener("pointerup", end);
    handle.addEventListener("pointercancel", end);
    handle.addEventListener("focus", () => loupe.at(placeOf(corner)));
    handle.addEventListener("blur", () => loupe.hide());
    handle.addEventListener("keydown", (event) => {
      const step = STEPS[event.key];
      if (!step) return;
      event.preventDefault();
      const length = (event.shiftKey ? 10 : 1) * (frame.width / picture.clientWidth);
      const { x, y } = placeOf(corner);
      move(corner, x + step[0] * length, y + step[1] * length);
      tell(`Part ${part}, ${CORNERS[corner]}: ${Math.round(placeOf(corner).x)} across, ${Math.round(placeOf(corner).y)} down`);
    });
  }
  fields.addEventListener("input", show);
  show();
}

const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** The place at full resolution, in the corner of the picture that is farthest from it. */
function closeUp(stage, frame) {
  const box = stage.appendChild(document.createElement("div"));
  box.className = "corner-loupe";
  box.hidden = true;
  box.setAttribute("aria-hidden", "true");
  const image = box.appendChild(document.createElement("img"));
  image.alt = "";
  let shown = null;
  let waiting = 0;
  const slide = (place) => {
    // the old square is slid until the new one is here, so that the crosshair never lies
    image.style.transform = shown ? `translate(${shown.x - place.x}px, ${shown.y - place.y}px)` : "";
  };
  return {
    at(place) {
      box.hidden = false;
      box.classList.toggle("corner-loupe-right", place.x < frame.width / 2);
      box.classList.toggle("corner-loupe-low", place.y < frame.height / 2);
      slide(place);
      clearTimeout(waiting);
      waiting = setTimeout(async () => {
        const next = new Image(CLOSE_UP_PX, CLOSE_UP_PX);
        const centre = { x: Math.round(place.x), y: Math.round(place.y) };
        next.src = `${stage.dataset.closeUp}?x=${centre.x}&y=${centre.y}`;
        await next.decode().catch(() => {});
        if (!next.naturalWidth) return;
        image.src = next.src;
        shown = centre;
        slide(place);
      }, SETTLED_MS);
    },
    hide() {
      clearTimeout(waiting);
      box.hidden = true;
    },
  };
}

/** A new part is drawn from corner to corner, and the form sent so that the page comes back with it; all that was typed stays. */
function allowDrawing({ form, stage, picture, frame, drawing }) {
  const add = form.querySelector("[data-add-part]");
  const drawn = form.querySelector("[name=drawn]");
  if (!add || !drawn) return;
  const draw = document.createElement("button");
  draw.type = "button";
  draw.className = "button button-quiet";
  draw.textContent = "Draw a part";
  draw.setAttribute("aria-pressed", "false");
  add.before(draw);
  draw.addEventListener("click", () => {
    const isOn = stage.classList.toggle("corner-drawing");
    draw.setAttribute("aria-pressed", String(isOn));
    draw.textContent = isOn ? "Drag over the picture, from corner to corner" : "Draw a part";
    if (isOn) stage.scrollIntoView({ block: "nearest" });
  });
  let from = null;
  const box = drawing.appendChild(document.createElementNS(SVG, "rect"));
  box.setAttribute("class", "line");
  box.setAttribute("vector-effect", "non-scaling-stroke");
  stage.addEventListener("pointerdown", (event) => {
    if (!stage.classList.contains("corner-drawing")) return;
    event.preventDefault();
    stage.setPointerCapture(event.pointerId);
    from = { x: acrossOf(event, picture, frame), y: downOf(event, picture, frame) };
  });
  const corners = (event) => [from.x, from.y, acrossOf(event, picture, frame), downOf(event, picture, frame)].map(Math.round);
  stage.addEventListener("pointermove", (event) => {
    if (!from) return;
    const [x0, y0, x1, y1] = corners(event);
    box.setAttribute("x", Math.min(x0, x1));
    box.setAttribute("y", Math.min(y0, y1));
    box.setAttribute("width", Math.abs(x1 - x0));
    box.setAttribute("height", Math.abs(y1 - y0));
  });
  stage.addEventListener("pointerup", (event) => {
    if (!from) return;
    drawn.value = corners(event).join(" ");
    from = null;
    form.requestSubmit(add);
  });
}

function acrossOf(event, picture, frame) {
  const box = picture.getBoundingClientRect();
  return within(((event.clientX - box.left) / box.width) * frame.width - 0.5, frame.width - 1);
}

function downOf(event, picture, frame) {
  const box = picture.getBoundingClientRect();
  return within(((event.clientY - box.top) / box.height) * frame.height - 0.5, frame.height - 1);
}

function within(value, most) {
  return Math.min(most, Math.max(0, value));
}

/** As the server reads a corner's field (`cornerNumber` in corner-fields.ts); NaN where it would refuse it. */
function cornerNumber(text) {
  const plain = text.trim().replace(",", ".");
  return /^-?\d{1,6}(\.\d+)?$/.test(plain) ? Number(plain) : Number.NaN;
}

function isPlace({ x, y }) {
  return Number.isFinite(x) && Number.isFinite(y);
}
