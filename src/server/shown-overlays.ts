import { z } from "zod";
import { boundInWords, valueInWords } from "#domain/aim/measure-words.ts";
import type { MeasureName } from "#domain/measure/catalogue.ts";
import { homographyFromMm, project } from "#domain/measure/homography.ts";
import { centreOf, cornersOf, endsOf, SIDES } from "#domain/measure/lines.ts";
import { type FrameSize, loopsInFrame, patchLoops } from "#domain/measure/marked-area.ts";
import { markedAreasOf } from "#domain/measure/marked-places.ts";
import type { Loop } from "#domain/measure/mask-contours.ts";
import type { Point } from "#domain/measure/picture.ts";
import { isPresent, type Outline, type Present, type Reading } from "#domain/measure/reading.ts";
import { keptShines, shineInWords } from "#domain/measure/shine-kind.ts";
import { keptStreaks } from "#domain/recapture/measured-advice.ts";
import { capital } from "#domain/sentence.ts";
import { counted } from "#views/format/counted.ts";
import type { Drawing, OverlayId, ShownOverlay } from "#views/parts/overlays.tsx";
import type { Areas } from "./work/areas-file.ts";

type Seen = {
  readonly frame: FrameSize;
  readonly outline: Outline | null;
  readonly readings: readonly Reading[];
  /** what is kept of where readings found what they count */
  readonly areas: Areas;
};

/** What is drawn over a capture, in the order of the legend: what was read, how many and how large; or why it is missing. */
export function shownOverlays(seen: Seen): ShownOverlay[] {
  if (seen.readings.length === 0) return [];
  return [
    outlineOverlay(seen),
    pictureOverlay(seen),
    areaOverlay(seen, "glare", ["glareAreaPercent", "borderGlarePercent"]),
    areaOverlay(seen, "highlights", ["clippedHighlightsPercent"]),
    areaOverlay(seen, "shadows", ["clippedShadowsPercent"]),
    areaOverlay(seen, "streaks", ["streakCount"]),
    areaOverlay(seen, "rings", ["ringAreaPercent"]),
    areaOverlay(seen, "dust", ["dustPerCm2", "scratchLengthMm"]),
    sharpnessOverlay(seen),
    evennessOverlay(seen),
    edgesOverlay(seen),
  ];
}

const readingOf = ({ readings }: Seen, name: MeasureName) => readings.find((reading) => reading.name === name);

const absent = (id: OverlayId, why: string): ShownOverlay => ({ id, words: why, isOn: false, isHint: false, drawing: null });
const notRead = (id: OverlayId, reading: Reading | undefined): ShownOverlay =>
  absent(id, reading && !isPresent(reading) ? `Not read: ${reading.absent}.` : "Not read yet.");

function outlineOverlay({ outline, ...seen }: Seen): ShownOverlay {
  if (!outline) return absent("outline", "The print's outline was not found in this capture.");
  const kinds = SIDES.map((side) => outline.sides[side]);
  const count = (kind: (typeof kinds)[number]) => kinds.filter((each) => each === kind).length;
  const doubted = outline.doubted?.length ?? 0;
  const mm = inMm(outline.cornerSpreadPx, seen);
  const words = [
    outline.isSaid ? "Set by hand" : `${count("seen")} of 4 sides found as edges of the sheet`,
    ...(doubted > 0 ? [`${doubted} along an edge that may be something else's (dashed)`] : []),
    ...(count("assumed") > doubted ? [`${count("assumed") - doubted} assumed (dashed)`] : []),
    ...(count("cut-off") > 0 ? [`${count("cut-off")} cut off by the frame (dotted)`] : []),
    `corners sure to about ${figure(outline.cornerSpreadPx)} px${mm === null ? "" : ` (${figure(mm)} mm)`}`,
  ];
  const drawing: Drawing = { kind: "outline", outline: { ...outline, image: null }, cornerSpreadPx: outline.cornerSpreadPx };
  return { id: "outline", words: `${words.join(", ")}.`, isOn: true, isHint: false, drawing };
}

function pictureOverlay({ outline }: Seen): ShownOverlay {
  if (!outline?.image) return absent("picture", "No border was told apart, so the picture is taken to fill the sheet.");
  const words = "Where the picture ends and its border begins.";
  return { id: "picture", words, isOn: true, isHint: false, drawing: { kind: "picture", corners: cornersOf(outline.image) } };
}

/** The first measure decides; others of the same kind are drawn and told with it. That one of them surely found nothing makes no other sure. */
function areaOverlay(seen: Seen, id: OverlayId, names: readonly MeasureName[]): ShownOverlay {
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

const place = z.object({ across: z.number(), down: z.number(), sfr50CyPerMm: z.number().positive() });

/** Circles on the edges and over the picture, as large as the blur there, and where it gets softer. */
function sharpnessOverlay(seen: Seen): ShownOverlay {
  const falloff = readingOf(seen, "focusFalloffPercent");
  if (!falloff || !isPresent(falloff)) return notRead("sharpness", falloff);
  const [edges, tiles] = [falloff.detail?.places, falloff.detail?.tiles].map((each) => z.array(place).safeParse(each).data ?? []);
  const read = [...(edges ?? []), ...(tiles ?? [])];
  if (read.length === 0 || !seen.outline)
    return absent(
      "sharpness",
      `${valueInWords(falloff.name, falloff.value)} softer on one side. The print's size is not known, so it is not drawn.`,
    );
  const map = homographyFromMm(1, 1, seen.outline.sheet);
  const softest = Math.min(...read.map(({ sfr50CyPerMm }) => sfr50CyPerMm));
  const circles = read.map(({ across, down, sfr50CyPerMm }) => ({ at: project(map, across, down), size: softest / sfr50CyPerMm }));
  const direction = readingOf(seen, "focusFalloffDegrees");
  const isSeen = isPresent(direction);
  const circlesSay = tiles?.length
    ? "The larger a circle, the softer it is there: on the edges by themselves, inside by what the picture shows, which may be soft of itself."
    : "The larger a circle, the softer the edge there.";
  const words = isSeen
    ? `Falls off by ${boundInWords(falloff.name, falloff.value, falloff.bound ?? null)} ${towards(direction.value)} (arrow). ${circlesSay}`
    : `No side is softer than the others. ${circlesSay}`;
  const drawing: Drawing = {
    kind: "circles",
    circles,
    arrow: isSeen ? { from: centreOf(seen.outline.sheet), degrees: direction.value } : null,
  };
  return { id: "sharpness", words, isOn: false, isHint: falloff.reliability === "weak", drawing };
}

const DIRECTIONS = [
  "to the right",
  "to the lower right",
  "downwards",
  "to the lower left",
  "to the left",
  "to the upper left",
  "upwards",
  "to the upper right",
];
const towards = (degrees: number) => DIRECTIONS[Math.round(degrees / 45) % 8] as string;

const light = z.object({
  corners: z.object({ topLeft: z.number(), topRight: z.number(), bottomRight: z.number(), bottomLeft: z.number() }),
  centre: z.number(),
});

/** The light at the corners of the sheet, in percent of the brightest of them. */
function evennessOverlay(seen: Seen): ShownOverlay {
  const loss = readingOf(seen, "evennessPercent");
  if (!loss || !isPresent(loss)) return notRead("evenness", loss);
  const spread = readingOf(seen, "borderLightnessSpreadPercent");
  const read = light.safeParse(isPresent(spread) ? spread.detail : null);
  const words = `The darkest place of the border gets ${valueInWords(loss.name, loss.value)} less light than the brightest.`;
  if (!read.success || !seen.outline) return absent("evenness", words);
  const { sheet } = seen.outline;
  const { corners } = read.data;
  const brightest = Math.max(...Object.values(corners));
  const figures = (["topLeft", "topRight", "bottomRight", "bottomLeft"] as const).map((corner) => ({
    at: between(sheet[corner], centreOf(sheet), 0.1),
    text: `${Math.round((100 * corners[corner]) / brightest)} %`,
  }));
  return {
    id: "evenness",
    words: `${words} The figures are the light at the corners, in percent of the brightest.`,
    isOn: false,
    isHint: loss.reliability === "weak",
    drawing: { kind: "figures", figures },
  };
}

const sides = z.array(z.object({ of: z.enum(["sheet", "picture"]), side: z.enum(SIDES), refused: z.string().nullable() }));
const from = z.object({ from: z.enum(["sheet", "picture"]) }).nullable();

/** Which sides the resolution was read from. */
function edgesOverlay(seen: Seen): ShownOverlay {
  const sfr = readingOf(seen, "sfr50CyPerMm");
  if (!sfr || !isPresent(sfr)) return notRead("edges", sfr);
  const read = z.object({ sides, across: from, down: from }).safeParse(sfr.detail);
  if (!read.success || !seen.outline) return absent("edges", "Which edges were used was not kept.");
  const { across, down } = read.data;
  const lines = read.data.sides.flatMap(({ of, side, refused }) => {
    const quad = of === "picture" ? seen.outline?.image : seen.outline?.sheet;
    const usedOf = side === "left" || side === "right" ? across?.from : down?.from;
    return quad && refused === null && usedOf === of ? [{ ends: endsOf(quad, side), name: `${side} side of the ${of}` }] : [];
  });
  if (lines.length === 0) return absent("edges", "Which edges were used was not kept.");
  return {
    id: "edges",
    words: `Resolution was read from the ${listed(lines.map(({ name }) => name))}.`,
    isOn: false,
    isHint: false,
    drawing: { kind: "lines", lines: lines.map(({ ends }) => ends) },
  };
}

const listed = (parts: readonly string[]) =>
  parts.length < 2 ? parts.join("") : `${parts.slice(0, -1).join(", ")} and ${parts[parts.length - 1]}`;

const between = (from: Point, to: Point, share: number): Point => ({
  x: from.x + (to.x - from.x) * share,
  y: from.y + (to.y - from.y) * share,
});

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

/** By the sampling that was read; null where it was not. */
function inMm(px: number, { readings }: Pick<Seen, "readings">): number | null {
  const sampling = readings.find(({ name }) => name === "samplingPpi");
  return isPresent(sampling) ? (px * 25.4) / sampling.value : null;
}

/** Two digits are all that is known of such sizes. */
const figure = (value: number) => String(Number(value.toPrecision(2)));
const onTenths = (loop: Loop): Loop => loop.map(({ x, y }) => ({ x: Number(x.toFixed(1)), y: Number(y.toFixed(1)) }));
