import type { MeasureContext } from "#domain/measure/reading.ts";
import type { BackgroundKind, Rgb } from "../fixtures/picture-scenes.ts";
import { contextFor, type DrawnPrint, INSTANT, poseOf, type Scene, SIDES, type Side } from "../fixtures/pictures.ts";

export type OutlineCase = {
  readonly seed: number;
  readonly kind: string;
  readonly scene: Scene;
  readonly context: MeasureContext;
  readonly ppi: number;
  readonly turnDeg: number;
};

const BACKGROUNDS: readonly BackgroundKind[] = ["dark-cloth", "wood-grain", "patterned-table", "white-lid"];

/** Prints of several sizes: with thick, even, thin and no border. */
const PRINTS: readonly Omit<DrawnPrint, "pose">[] = [
  INSTANT,
  { widthMm: 54, heightMm: 86, border: { left: 4, right: 4, top: 7, bottom: 17 } },
  { widthMm: 108, heightMm: 86, border: { left: 4.5, right: 4.5, top: 6, bottom: 18 } },
  { widthMm: 89, heightMm: 89, border: { left: 5, right: 5, top: 5, bottom: 5 } },
  { widthMm: 83, heightMm: 108, border: { left: 5, right: 5, top: 6.5, bottom: 6.5 } },
  { widthMm: 152, heightMm: 102, border: { left: 3, right: 3, top: 3, bottom: 3 } },
  { widthMm: 89, heightMm: 127 },
];

/** One random capture; the same seed gives the same case. Sizes are kept to 1.3 to 3 megapixels, for time's sake. */
export function outlineCase(seed: number): OutlineCase {
  const next = generator(seed);
  const between = (low: number, high: number) => low + (high - low) * next();
  const background = BACKGROUNDS[seed % BACKGROUNDS.length] as BackgroundKind;
  // A print without border on a white lid is its own case in the tests; here each lid print has one.
  const choice = PRINTS[Math.floor(next() * (background === "white-lid" ? PRINTS.length - 1 : PRINTS.length))] as Omit<DrawnPrint, "pose">;
  const isLid = background === "white-lid";
  const turnDeg = isLid ? between(-3, 3) : between(-9, 9);
  const keystone = () => (isLid ? 0 : between(-0.1, 0.1));
  const [widthPx, heightPx] = choice.widthMm > choice.heightMm ? [1700, 1300] : [1300, 1700];
  const fill = between(0.45, 0.78);
  const ppi = 25.4 * Math.min((fill * widthPx) / choice.widthMm, (fill * heightPx) / choice.heightMm);
  const centre = { x: widthPx * between(0.45, 0.55), y: heightPx * between(0.46, 0.54) };
  const paper: Rgb = isLid ? lidPaper(next) : [between(0.7, 0.84), between(0.7, 0.82), between(0.62, 0.78)];
  const print: DrawnPrint = {
    ...choice,
    paper,
    pose: poseOf({ ...choice, ppi, centre, turnDeg, keystoneAcross: keystone(), keystoneDown: keystone() }),
  };
  const shadow =
    isLid && next() < 0.7
      ? { depth: between(0.04, 0.12), widthPx: between(1.5, 4), sides: SIDES.filter(() => next() < 0.75) as Side[] }
      : undefined;
  const scene: Scene = {
    widthPx,
    heightPx,
    prints: [print],
    background,
    bedPxPerMm: ppi / 25.4,
    blurPx: between(0.5, 1.6),
    noise: between(0.2, 1.5),
    light: { fallOff: between(0, 0.25), across: between(-0.15, 0.15) },
    seed,
    ...(shadow ? { shadow } : {}),
  };
  return { seed, kind: `${background}${choice.border ? "" : ", no border"}`, scene, context: contextFor(print), ppi, turnDeg };
}

/** From nearly the lid's own colour to a little yellower or darker. */
function lidPaper(next: () => number): Rgb {
  const level = 0.9 - 0.06 * next();
  return [level, level * 0.995, level * (0.985 - 0.04 * next())];
}

/** Mulberry32. */
function generator(seed: number): () => number {
  let state = Math.imul(seed + 1, 0x9e3779b1);
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
