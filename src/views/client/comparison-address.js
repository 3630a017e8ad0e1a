// What is shown of captures under comparison stands in the address, so that a view can be linked and found again.

const VIEWS = ["beside", "single", "wipe", "difference"];
/** Browsers refuse addresses that change with every frame. */
const SETTLED_MS = 250;
let waiting = null;

/**
 * What a link asks for; anything else is as if it were not there.
 * @param count of captures
 */
export function readAddress(count, canvas, sheetMm) {
  const query = new URLSearchParams(location.search);
  const number = (name, otherwise) => {
    const value = Number(query.get(name));
    return Number.isInteger(value) && value >= 1 && value <= count ? value : otherwise;
  };
  const [x, y] = (query.get("at") ?? "").split(",").map(Number);
  const percent = Number(query.get("zoom"));
  const isPlaced = Number.isFinite(x) && Number.isFinite(y) && percent > 0 && percent < 1e5;
  const within = (mm, most) => Math.min(most, Math.max(0, mm));
  const line = query.get("line") === null ? 50 : Number(query.get("line"));
  return {
    view: VIEWS.includes(query.get("view")) ? query.get("view") : "beside",
    show: number("first", 1),
    first: number("first", 1),
    second: number("second", 2),
    wipeAt: line >= 0 && line <= 100 ? line : 50,
    gain: 1,
    tones: query.get("tone") === "matched" ? "matched" : "plain",
    percent: isPlaced ? percent : null,
    x: within(x, sheetMm.widthMm) + canvas.leftMm,
    y: within(y, sheetMm.heightMm) + canvas.topMm,
  };
}

/** @param at the middle of what is shown, mm of the sheet, and how large; null where the whole print is shown */
export function keepInAddress({ view, show, first, second, wipeAt, tones, drawn }, at) {
  const isPair = view === "wipe" || view === "difference";
  const kept = {
    view: view === "beside" ? null : view,
    first: isPair ? first : view === "single" ? show : null,
    second: isPair ? second : null,
    line: view === "wipe" && wipeAt !== 50 ? Math.round(wipeAt) : null,
    tone: tones === "matched" ? tones : null,
    drawn: drawn.length > 0 ? drawn.join(",") : null,
    at: at && `${at.x.toFixed(2)},${at.y.toFixed(2)}`,
    zoom: at ? at.percent.toPrecision(4) : null,
  };
  clearTimeout(waiting);
  waiting = setTimeout(() => {
    const address = new URL(location.href);
    for (const [name, value] of Object.entries(kept)) {
      if (value === null) address.searchParams.delete(name);
      else address.searchParams.set(name, String(value));
    }
    history.replaceState(history.state, "", address);
  }, SETTLED_MS);
}
