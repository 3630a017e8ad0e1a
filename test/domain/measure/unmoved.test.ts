import sharp from "sharp";
import { beforeAll, describe, expect, test } from "vitest";
import type { MeasureName } from "#domain/measure/catalogue.ts";
import { type MeasuredCapture, measureCapture } from "#domain/measure/measure-capture.ts";
import type { Picture } from "#domain/measure/picture.ts";
import { isPresent } from "#domain/measure/reading.ts";
import { readValue } from "../../accuracy/ladder.ts";
import { type CapturedSheet, captureSheet } from "../../fixtures/captured-sheet.ts";
import { decoded } from "../../fixtures/decoded.ts";
import { colourShift } from "../../fixtures/defects/colour-shift.ts";
import { edited } from "../../fixtures/edits.ts";
import { fileOf } from "../../fixtures/image-files.ts";
import type { ContentKind } from "../../fixtures/picture-scenes.ts";
import { pictureOf } from "../../fixtures/pictures.ts";
import { reasonOf } from "../../fixtures/readings.ts";

// Readings of the whole engine that must not move when the capture is only stored, turned, cropped beside the print or lit otherwise.

const WIDE = { widthMm: 44, heightMm: 52, border: { left: 9, right: 9, top: 9, bottom: 12 }, paper: [0.5, 0.5, 0.47] } as const;

type Shown = { readonly content: ContentKind; readonly seed: number; readonly absent: Partial<Record<MeasureName, string>> };

/** What the prints show, and what cannot be read there, however the capture is turned, cropped or lit, with the reason that is given. */
const SHOWN: readonly Shown[] = [
  { content: "scene", seed: 611, absent: {} },
  {
    content: "pale-wall",
    seed: 2718,
    absent: {
      hazePercent: "darkest places of the picture are brighter than the border",
      missingLevelsPercent: "too few different levels",
    },
  },
  { content: "night", seed: 31415, absent: {} },
];

const draw = ({ content, seed }: Shown, gain: number, noise = 0.6) =>
  captureSheet({
    print: { ...WIDE, content },
    ppi: 230,
    seed,
    noise,
    light: { fallOff: 0.1, across: 0.1 },
    cast: [gain, 0.97 * gain, 0.9 * gain],
    ground: [0.02, 0.02, 0.02],
    defects: [colourShift({ x: 0.3, y: 0 })],
    known: { fileKind: "png" },
  });

type Tolerances = Partial<Record<MeasureName, number>>;

/** How far each reading may move when turned or cropped: what noise and another place of the same pixels make of it. */
const TURNED: Tolerances = {
  sidesSeen: 0,
  skewDegrees: 0.02,
  keystonePercent: 0.03,
  keystoneMm: 0.02,
  barrelPercent: 0.02,
  samplingPpi: 0.1,
  sfr50CyPerMm: 0.05,
  sfr10CyPerMm: 0.05,
  samplingEfficiencyPercent: 1,
  sharpeningOvershootPercent: 0.3,
  focusFalloffPercent: 1,
  tonalRangeDeltaL: 0.3,
  missingLevelsPercent: 1,
  clippedHighlightsPercent: 0.01,
  clippedShadowsPercent: 0.01,
  borderGlarePercent: 0.2,
  glareAreaPercent: 0.2,
  glarePeakDeltaL: 0.2,
  hazePercent: 0.2,
  evennessPercent: 0.3,
  borderLightnessSpreadPercent: 0.1,
  borderCastA: 0.1,
  borderCastB: 0.1,
  borderCastChroma: 0.1,
  noiseDeltaL: 0.03,
  streakCount: 0,
  streakDeltaL: 0.05,
  bandingDeltaL: 0.05,
  misregistrationPx: 0.03,
  dustPerCm2: 0.1,
  scratchLengthMm: 0.1,
  effectiveBitDepth: 0,
  lossless: 0,
};

/** More light moves the colour and the tones that are read, but neither shape nor detail nor what goes wrong. */
const BRIGHTER: Tolerances = {
  sidesSeen: 0,
  skewDegrees: 0.02,
  keystonePercent: 0.03,
  keystoneMm: 0.02,
  marginMm: 0.05,
  barrelPercent: 0.02,
  samplingPpi: 0.1,
  sfr50CyPerMm: 0.05,
  sfr10CyPerMm: 0.05,
  sharpeningOvershootPercent: 0.3,
  focusFalloffPercent: 1,
  borderGlarePercent: 0.2,
  hazePercent: 0.2,
  evennessPercent: 0.3,
  borderLightnessSpreadPercent: 0.1,
  misregistrationPx: 0.03,
  noiseDeltaL: 0.06,
  streakCount: 0,
  dustPerCm2: 0.2,
  missingLevelsPercent: 1,
};

/** Without so many px of the ground at each side. */
function cropped({ widthPx, heightPx, codes, ...rest }: Picture, left: number, top: number, right: number, bottom: number): Picture {
  const [width, height] = [widthPx - left - right, heightPx - top - bottom];
  const into = new Uint8Array(width * height * 3);
  for (let y = 0; y < height; y++) {
    const from = ((y + top) * widthPx + left) * 3;
    into.set(codes.subarray(from, from + width * 3), y * width * 3);
  }
  return { ...rest, widthPx: width, heightPx: height, codes: into };
}

/** A quarter turn clockwise, pixel by pixel. */
function turned({ widthPx, heightPx, codes, ...rest }: Picture): Picture {
  const into = codes.slice();
  for (let y = 0; y < heightPx; y++)
    for (let x = 0; x < widthPx; x++)
      into.set(codes.subarray((y * widthPx + x) * 3, (y * widthPx + x) * 3 + 3), (x * heightPx + heightPx - 1 - y) * 3);
  return { ...rest, widthPx: heightPx, heightPx: widthPx, codes: into };
}

describe.each(SHOWN)("a capture of a print that shows: $content", (shown) => {
  let capture: CapturedSheet;
  let measured: MeasuredCapture;

  beforeAll(() => {
    capture = draw(shown, 1);
    measured = measureCapture(capture.picture, capture.context);
  });

  const namesOf = (tolerances: Tolerances) => Object.keys(tolerances).filter((name) => !(name in shown.absent)) as MeasureName[];

  const expectAbsent = ({ readings }: MeasuredCapture) => {
    for (const [name, reason] of Object.entries(shown.absent)) expect(reasonOf(readings, name as MeasureName), name).toContain(reason);
  };

  const expectSame = (other: MeasuredCapture, tolerances: Tolerances) => {
    expectAbsent(other);
    for (const name of namesOf(tolerances)) {
      const [before, after] = [readValue(measured, name), readValue(other, name)];
      expect.soft(Math.abs(after - before), `${name}: ${before} and ${after}`).toBeLessThanOrEqual(tolerances[name] as number);
    }
  };

  test("of which all of these can be read, but for what it shows too little of", () => {
    expectAbsent(measured);
    const present = measured.readings.filter(isPresent).map(({ name }) => name);
    expect(present).toEqual(expect.arrayContaining(namesOf(TURNED)));
  });

  test("turned by a quarter reads the same", () => {
    expectSame(measureCapture(turned(capture.picture), capture.context), TURNED);
  });

  test("cropped beside the print reads the same, but for its margin", () => {
    const narrow = measureCapture(cropped(capture.picture, 31, 22, 17, 40), capture.context);
    expectSame(narrow, TURNED);
    expect(readValue(narrow, "marginMm")).toBeLessThan(readValue(measured, "marginMm") - 2);
  });

  test("stored as PNG and stored again as TIFF reads exactly the same", async () => {
    const { picture, context } = capture;
    const raw = { width: picture.widthPx, height: picture.heightPx, channels: 3 as const };
    const png = await sharp(picture.codes, { raw }).png().toBuffer();
    const tiff = await sharp(png).tiff({ compression: "deflate" }).toBuffer();
    expect(measureCapture(await decoded(fileOf(tiff), "tiff"), context).readings).toEqual(measured.readings);
  });

  test("lit brighter by a third keeps what does not hang on the amount of light", () => {
    const brighter = draw(shown, 4 / 3);
    expectSame(measureCapture(brighter.picture, brighter.context), BRIGHTER);
  });
});

describe("a capture of a detailed print", () => {
  // the noise of the other capture would hide a movement along a diagonal, so that none is read there
  test("with little noise shows as little movement turned, cropped and lit brighter", () => {
    const quiet = draw(SHOWN[0] as Shown, 1, 0.2);
    const movement = (picture: Picture) => readValue(measureCapture(picture, quiet.context), "motionMm");
    const still = movement(quiet.picture);
    expect(still).toBeLessThanOrEqual(0.05);
    for (const other of [turned(quiet.picture), cropped(quiet.picture, 31, 22, 17, 40), draw(SHOWN[0] as Shown, 4 / 3, 0.2).picture])
      expect(Math.abs(movement(other) - still)).toBeLessThanOrEqual(0.01);
  });

  test("brightened afterwards in 8 bits is told from one lit brighter", () => {
    const { picture, context } = draw(SHOWN[0] as Shown, 1);
    const lifted = edited(picture, (code) => 1.14 * code);
    expect(
      readValue(measureCapture(pictureOf(lifted.codes, picture.widthPx, picture.heightPx), context), "missingLevelsPercent"),
    ).toBeGreaterThan(8);
  });
});
