import { z } from "zod";
import { boundInWords, valueInWords } from "#domain/aim/measure-words.ts";
import type { MeasureName } from "#domain/measure/catalogue.ts";
import { keptShines, shineInWords } from "#domain/measure/light/shine-kind.ts";
import { loopsInFrame, patchLoops } from "#domain/measure/marked-area.ts";
import { markedAreasOf } from "#domain/measure/marked-places.ts";
import type { Loop } from "#domain/measure/planes/mask-contours.ts";
import { isPresent, type Present } from "#domain/measure/reading.ts";
import { keptStreaks } from "#domain/recapture/measured-advice.ts";
import { capital } from "#domain/sentence.ts";
import { counted } from "#views/format/counted.ts";
import type { OverlayId, ShownOverlay } from "#views/parts/overlays.tsx";
import { figure, inMm, notRead, readingOf, type Seen } from "./seen.ts";

/** The first measure decides; others of the same kind are drawn and told with it. That one of them surely found nothing makes no other sure. */
export function areaOverlay(seen: Seen, id: OverlayId, names: readonly MeasureName[]): ShownOverlay {
  const [first, ...others] = names.map((name) => readingOf(seen, name));
  const read = [first, ...others].filter((reading) => isPresent(reading));
  const [leading] = read;
  if (!leading) return notRead(id, first);
  const loops = read.map((reading) =>
    loopsInFrame(seen.areas.get(reading.name) ?? markedAreasOf(reading), seen.outline, seen.frame).map(onTenths),
  );
  const drawn = loops.filter((each) => each.length > 0);
  const found = read.filter(({ value }) => value !== 0);
  const isWeak = ({ reliability }: Present) => reliability === "weak";
  const isHint = (found.length > 0 ? found : read).every(isWeak);
  const areAllWeak = read.every(isWeak);
  const words = read.flatMap((reading, index) => [
    areaWords(seen, reading, loops[index] ?? []),
    ...(isWeak(reading) && !areAllWeak ? [A_HINT] : []),
  ]);
  return {
    id,
    words: [...words, ...(areAllWeak ? [A_HINT] : [])].join(" "),
    isOn: drawn.length > 0 && !isHint,
    isHint,
    drawing: drawn.length > 0 ? { kind: id === "dust" ? "spots" : id === "streaks" ? "bands" : "areas", loops: drawn } : null,
  };
}

const A_HINT = "A hint only: look whether it is so.";

type AreaWords = {
  readonly none: string;
  readonly said: (value: string) => string;
  readonly one: string;
  readonly many: string;
};

const AREA_WORDS: Partial<Record<MeasureName, AreaWords>> = {
  glareAreaPercent: { none: "None found.", said: (value) => `${value} shines`, one: "place", many: "places" },
  borderGlarePercent: { none: "None on the border.", said: (value) => `${value} of the border shines`, one: "place", many: "places" },
  clippedHighlightsPercent: { none: "None found.", said: (value) => `${value} of the picture`, one: "place", many: "places" },
  clippedShadowsPercent: { none: "None found.", said: (value) => `${value} of the picture`, one: "place", many: "places" },
  ringAreaPercent: { none: "None found.", said: (value) => `${value} of the picture with fringes`, one: "place", many: "places" },
  dustPerCm2: { none: "No dust found.", said: (value) => value, one: "speck", many: "specks" },
  scratchLengthMm: {
    none: "No hair or scratch found.",
    said: (value) => `Hairs and scratches of up to ${value}`,
    one: "line",
    many: "lines",
  },
  streakCount: { none: "None found.", said: (value) => value, one: "streak", many: "streaks" },
};

function areaWords(seen: Seen, reading: Present, loops: readonly Loop[]): string {
  const words = AREA_WORDS[reading.name];
  if (!words) return "";
  const besides = mirroredWords(reading) ?? clippedBorderWords(reading);
  if (reading.value === 0) {
    const faint = patchLoops(loops).length;
    return [faint > 0 ? faintWords(faint, words) : words.none, besides].filter((said) => said).join(" ");
  }
  if (reading.name === "streakCount") return streakWords(reading);
  const patches = patchLoops(loops);
  const said = words.said(boundInWords(reading.name, reading.value, reading.bound ?? null));
  if (patches.length === 0) return `${capital(said)}. Where was not kept: measure again to see it.`;
  const largest = patches.map(boxOf).reduce((most, box) => (box.widthPx * box.heightPx > most.widthPx * most.heightPx ? box : most));
  const size = sizeWords(seen, largest);
  const where = `${capital(said)}: ${counted(patches.length, words.one, words.many)}, ${patches.length > 1 ? "the largest " : ""}${size}.`;
  return [where, besides].filter((words) => words).join(" ");
}

/** What is marked all the same is not said to be nothing. */
const faintWords = (count: number, { one, many }: AreaWords): string =>
  `Seen at ${counted(count, one, many)}, but too faint to be counted.`;

/** What the largest reflection is of, where its shape tells. */
function mirroredWords({ detail }: Present): string | null {
  const kept = keptShines.safeParse(detail?.reflections);
  return kept.success ? shineInWords(kept.data) : null;
}

const clippedBorder = z.object({ border: z.object({ all: z.number() }) });

/** What is clipped on the border, which neither the figure of the picture counts nor its marks show. */
function clippedBorderWords({ name, detail }: Present): string | null {
  const read = clippedBorder.safeParse(detail);
  const all = read.success ? read.data.border.all : 0;
  return all >= LEAST_SAID ? `The border, ${valueInWords(name, all)} of it clipped, is neither counted nor drawn.` : null;
}

/** Percent: less would be said as nought. */
const LEAST_SAID = 0.005;

function streakWords(reading: Present): string {
  const kept = keptStreaks.safeParse(reading.detail?.streaks);
  const each = (kept.success ? kept.data : []).map(
    ({ line, fromFrameEdgeMm, widthMm }) =>
      `${figure(widthMm)} mm wide, ${line}, ${figure(fromFrameEdgeMm)} mm from its ${line.startsWith("down") ? "left" : "upper"} edge`,
  );
  return `${reading.bound === "lower" ? "At least " : ""}${counted(reading.value, "streak", "streaks")}${each.length > 0 ? `: ${each.join("; ")}` : ""}.`;
}

type Box = { readonly widthPx: number; readonly heightPx: number };

function boxOf(loop: Loop): Box {
  const [xs, ys] = [loop.map(({ x }) => x), loop.map(({ y }) => y)];
  return { widthPx: Math.max(...xs) - Math.min(...xs), heightPx: Math.max(...ys) - Math.min(...ys) };
}

function sizeWords(seen: Seen, { widthPx, heightPx }: Box): string {
  const [width, height] = [inMm(widthPx, seen), inMm(heightPx, seen)];
  if (width === null || height === null) return `${Math.round(widthPx)} × ${Math.round(heightPx)} px`;
  return `${figure(width)} × ${figure(height)} mm`;
}

const onTenths = (loop: Loop): Loop => loop.map(({ x, y }) => ({ x: Number(x.toFixed(1)), y: Number(y.toFixed(1)) }));
