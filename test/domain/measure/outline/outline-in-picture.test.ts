import path from "node:path";
import { expect, test } from "vitest";
import { MEASURES } from "#domain/measure/catalogue.ts";
import { measureCapture } from "#domain/measure/measure-capture.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import { isPresent } from "#domain/measure/reading.ts";
import { DEMO_CAPTURES, readDemoManifest } from "../../../../demo-collection/read-manifest.ts";
import { decoded } from "../../../fixtures/decoded.ts";
import { type BackgroundKind, contentAt } from "../../../fixtures/picture-scenes.ts";
import { contextFor, contextOf, type DrawnPrint, drawPicture, poseOf, type Scene } from "../../../fixtures/pictures.ts";

/** A file of a capture, cut to the picture inside its border as far as an upright frame can. */
async function croppedToPicture(file: string) {
  const truth = readDemoManifest().captures.find((capture) => capture.file === file)?.truth[0];
  const [topLeft, topRight, bottomRight, bottomLeft] = truth?.imagePx ?? truth?.sheetPx ?? [];
  if (!truth || !topLeft || !topRight || !bottomRight || !bottomLeft) throw new Error(`the demo has no ${file}`);
  const left = Math.ceil(Math.max(topLeft.x, bottomLeft.x)) + 5;
  const top = Math.ceil(Math.max(topLeft.y, topRight.y)) + 5;
  const width = Math.floor(Math.min(topRight.x, bottomRight.x)) - 5 - left;
  const height = Math.floor(Math.min(bottomLeft.y, bottomRight.y)) - 5 - top;
  const picture = await decoded(path.join(DEMO_CAPTURES, file), "jpeg", { left, top, width, height });
  return { picture, known: { sheetWidthMm: truth.sheetWidthMm, sheetHeightMm: truth.sheetHeightMm, sheetToleranceMm: 1 } };
}

test.each(["1972.002.01_phone-1.jpg", "1974.004.02_phone-2.jpg", "1987.005.01_phone-1.jpg", "1987.005.02_phone-1.jpg"])(
  "%s with its border cropped away has nothing that its picture shows told as its sheet, with its size in the record or without",
  async (file) => {
    const { picture, known } = await croppedToPicture(file);
    for (const context of [contextOf(), contextOf(known)]) {
      const outlines = findOutlines(picture, context);
      expect(outlines.map(({ doubt }) => doubt)).toEqual(outlines.map(() => "in picture"));
      expect(outlines.flatMap(({ sides }) => Object.values(sides))).not.toContain("seen");
    }
  },
  60_000,
);

/** px per mm, and the frame that all are drawn in */
const PX_PER_MM = 7;
const FRAME = { widthPx: 1200, heightPx: 900 } as const;

/** A picture of large things: the test scene seen from near. */
const manyThings =
  (seed: number): NonNullable<Scene["ground"]> =>
  (xMm, yMm, blurMm) =>
    contentAt("scene", xMm / 3, yMm / 3, blurMm / 3, seed);

/** Something with a bright frame, 5 % of what is seen, leaning a little: a window, or a small print. */
const SMALL: Omit<DrawnPrint, "pose"> = {
  widthMm: 30,
  heightMm: 36,
  border: { left: 2.5, right: 2.5, top: 2.5, bottom: 2.5 },
};

function drawSmall(around: Pick<Scene, "ground" | "background">, seed: number) {
  const centre = { x: 420 + 60 * (seed % 5), y: 380 + 30 * (seed % 4) };
  const pose = poseOf({ ...SMALL, ppi: 25.4 * PX_PER_MM, centre, turnDeg: (seed % 9) - 4, keystoneAcross: ((seed % 5) - 2) / 60 });
  return drawPicture({
    ...FRAME,
    ...around,
    prints: [{ ...SMALL, pose }],
    bedPxPerMm: PX_PER_MM,
    light: { fallOff: 0.15, across: 0.1 },
    seed,
  });
}

test.each([62, 63, 67])(
  "a bright window in a picture of many things is doubted, in words, and nothing but the file is read firmly (seed %i)",
  (seed) => {
    const { picture } = drawSmall({ ground: manyThings(seed) }, seed);
    const { outlines, readings } = measureCapture(picture, contextOf({ sheetWidthMm: 152, sheetHeightMm: 102 }));
    expect(outlines.map(({ doubt }) => doubt)).toEqual(outlines.map(() => "in picture"));
    const read = readings.filter(isPresent).filter(({ name }) => MEASURES[name].region !== "file");
    expect(read.filter(({ reliability }) => reliability !== "weak").map(({ name }) => name)).toEqual([]);
    expect(read.every(({ note }) => note?.includes("a thing that the picture shows"))).toBe(true);
  },
);

test("among many things a print is believed by its border, its picture and its size in the record together", () => {
  const { picture } = drawSmall({ ground: manyThings(64) }, 64);
  const doubts = (known: typeof SMALL) => findOutlines(picture, contextFor(known)).map(({ doubt }) => doubt);
  expect(doubts(SMALL)).toEqual([undefined]);
  expect(doubts({ ...SMALL, heightMm: 44 })).toEqual(["in picture"]);
});

test.each<BackgroundKind>(["dark-cloth", "wood-grain", "white-lid", "grey-card"])(
  "a print that covers a twentieth of the frame is seen whole on a ground of one kind: %s",
  (background) => {
    for (const seed of [71]) {
      const { picture } = drawSmall({ background }, seed);
      for (const context of [contextOf(), contextFor(SMALL)]) {
        const [outline] = findOutlines(picture, context);
        expect(outline?.doubt).toBe(undefined);
        expect(Object.values(outline?.sides ?? {})).toEqual(["seen", "seen", "seen", "seen"]);
      }
    }
  },
);
