import { layCaptures } from "#domain/measure/laying/lay-captures.ts";
import { makeGrid } from "#domain/measure/laying/print-grid.ts";
import { glareAlone } from "#domain/measure/light/glare-alone.ts";
import { glareTogether } from "#domain/measure/light/glare-together.ts";
import type { ToldShine } from "#domain/measure/light/shine-kind.ts";
import { isPresent, type Reading } from "#domain/measure/reading.ts";
import { mirroredLamp, mirroredWindow } from "../../../demo-collection/capture-model/lighting.ts";
import { type CapturedSheet, captureSheet } from "../../fixtures/captured-sheet.ts";
import { type AddedLight, adding, type Field, mirroredThing, THINGS } from "../../fixtures/defects/mirrored-things.ts";
import { random } from "../../fixtures/picture-scenes.ts";

const PRINT = { widthMm: 70, heightMm: 80, border: { left: 5, right: 5, top: 5, bottom: 9 } };
const FIELD: Field = { leftMm: 5, topMm: 5, widthMm: 60, heightMm: 66 };
const CONTENTS = ["scene", "night"] as const;

/** The demo collection's own window and lamp, drawn by another program than the rest, at chance places. */
function ofTheDemo(thing: "window" | "lamp", seed: number, peak: number): AddedLight {
  const between = (from: number, to: number, salt: number) => from + (to - from) * random(seed, salt, 613);
  const [xMm, yMm] = [between(26, 44, 1), between(28, 48, 2)];
  return thing === "lamp"
    ? mirroredLamp({ xMm, yMm, radiusMm: between(5, 8, 3), strength: peak })
    : mirroredWindow({
        xMm,
        yMm,
        widthMm: between(20, 34, 3),
        heightMm: between(20, 34, 4),
        turnDegrees: between(-15, 15, 5),
        softMm: 1.6,
        strength: peak,
        bars: true,
        wavyMm: 1.5,
      });
}

type Mirrored = { readonly thing: string; readonly lightOf: (seed: number, peak: number) => AddedLight };
export const MIRRORED: readonly Mirrored[] = [
  ...THINGS.map((thing): Mirrored => ({ thing, lightOf: (seed, peak) => mirroredThing(thing, seed, FIELD, peak) })),
  { thing: "window of the demo collection's program", lightOf: (seed, peak) => ofTheDemo("window", seed, peak) },
  { thing: "lamp of the demo collection's program", lightOf: (seed, peak) => ofTheDemo("lamp", seed, peak) },
];

/** Two captures of one print, the first of which mirrors something. */
function mirroringPair(light: AddedLight, seed: number): [CapturedSheet, CapturedSheet] {
  const print = { ...PRINT, content: CONTENTS[seed % CONTENTS.length] ?? "scene" };
  return [
    captureSheet({ seed, print, ppi: 130, turnDeg: 2, noiseSeed: 7 * seed, defects: [adding(light)] }),
    captureSheet({ seed, print, ppi: 140, turnDeg: -1, blurPx: 0.8, noiseSeed: 7 * seed + 1 }),
  ];
}

/** What is told of the first of two captures, the second alone knowing the print without its reflection. */
function readTogether(sheets: readonly CapturedSheet[]): Reading[][] {
  const laid = layCaptures(
    sheets.flatMap(({ picture, outline, context }, captureId) => {
      const grid = makeGrid(picture, outline, context);
      return grid ? [{ captureId, grid }] : [];
    }),
  );
  const lying = laid.flatMap((each) => ("coarse" in each ? [{ ...each, fine: null, notFine: "not drawn" }] : []));
  return lying.length === sheets.length ? glareTogether(lying) : sheets.map(() => []);
}

const answersAlone = ({ picture, outline, context }: CapturedSheet) => glareAlone(picture, outline, context);

/** The kind of the largest reflection, and how sure; or that none is told. */
function kindTold(readings: readonly Reading[] | undefined): string {
  const area = readings?.find(({ name }) => name === "glareAreaPercent");
  const reflections = isPresent(area) ? (area.detail?.reflections as readonly ToldShine[] | undefined) : undefined;
  const [largest] = reflections ?? [];
  if (!largest) return isPresent(area) ? "no shape seen" : "glare absent";
  return largest.looksLike === "not told" ? "not told" : `${largest.looksLike}, ${largest.sure}`;
}

/** One thing mirrored in one drawing, and what it was taken for. */
export type MirroredTold = { readonly thing: string; readonly peak: number; readonly seed: number; readonly told: string };

/** Light that it adds, 1 = white: alone only what is brighter than paper shows its shape, by comparison fainter things too. */
export const PEAKS = { "one capture": [0.5, 1], together: [0.12, 0.5] } as const;

export function mirroredAt(how: keyof typeof PEAKS, { thing, lightOf }: Mirrored, peak: number, seed: number): MirroredTold {
  const pair = mirroringPair(lightOf(seed, peak), seed);
  return { thing, peak, seed, told: kindTold(how === "together" ? readTogether(pair)[0] : answersAlone(pair[0])) };
}
