import sharp from "sharp";
import { describe, expect, test } from "vitest";
import type { Quad } from "#domain/measure/picture.ts";
import { straightenWhole } from "#server/images/straighten-whole.ts";

const [WIDTH, HEIGHT] = [560, 460];
const SHEET_MM = { widthMm: 36, heightMm: 24 };
const PX_PER_MM = 10;
/** 4 cycles a mm are 0.4 a pixel: near the end of what the scan can hold. */
const CY_PER_MM = 4;

/** A scan with one sheet, turned, that shows a fine wave across; sampled as a sensor would, since the wave is below its limit. */
async function scanOf(turnDeg: number): Promise<{ file: Buffer; quad: Quad }> {
  const [cos, sin] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  const [left, top] = [150, 90];
  const codes = new Uint8Array(WIDTH * HEIGHT * 3);
  for (let at = 0; at < WIDTH * HEIGHT; at++) {
    const [dx, dy] = [(at % WIDTH) - left, Math.floor(at / WIDTH) - top];
    const [xMm, yMm] = [(cos * dx + sin * dy) / PX_PER_MM, (cos * dy - sin * dx) / PX_PER_MM];
    const isSheet = xMm >= 0 && yMm >= 0 && xMm <= SHEET_MM.widthMm && yMm <= SHEET_MM.heightMm;
    codes.fill(isSheet ? Math.round(128 + 100 * Math.cos(2 * Math.PI * CY_PER_MM * xMm)) : 20, 3 * at, 3 * at + 3);
  }
  const corner = (xMm: number, yMm: number) => ({
    x: left + PX_PER_MM * (cos * xMm - sin * yMm),
    y: top + PX_PER_MM * (sin * xMm + cos * yMm),
  });
  const quad = { topLeft: corner(0, 0), topRight: corner(36, 0), bottomRight: corner(36, 24), bottomLeft: corner(0, 24) };
  const file = await sharp(codes, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
    .png()
    .toBuffer();
  return { file, quad };
}

/** How strong the wave is in a picture of the sheet, against what was drawn, in step with it. */
async function waveIn(picture: Buffer): Promise<number> {
  const { data, info } = await sharp(picture).raw().toBuffer({ resolveWithObject: true });
  let [cosine, sine, count] = [0, 0, 0];
  for (let y = Math.round(info.height * 0.2); y < info.height * 0.8; y += 7)
    for (let x = Math.round(info.width * 0.1); x < info.width * 0.9; x++, count++) {
      const phase = 2 * Math.PI * CY_PER_MM * (((x + 0.5) * SHEET_MM.widthMm) / info.width);
      const code = (data[(y * info.width + x) * info.channels] as number) - 128;
      cosine += code * Math.cos(phase);
      sine += code * Math.sin(phase);
    }
  return (2 * Math.hypot(cosine, sine)) / count / 100;
}

describe("a sheet straightened from its scan", () => {
  const within = { left: 0, top: 0, width: WIDTH, height: HEIGHT };

  // a kernel of three lobes, quick enough for looking, would leave 0.65 of it in the first of these and 0.8 in the others
  test.each([0, 3, 11])("turned by %d° keeps detail of 0.4 cycles a pixel, and has no fewer pixels than the scan", async (turnDeg) => {
    const { file, quad } = await scanOf(turnDeg);
    const made = await straightenWhole(file, within, { quad, frame: within, sheetMm: SHEET_MM });
    const { width, height, density, format, icc } = await sharp(made).metadata();
    expect([width, height, format]).toEqual([SHEET_MM.widthMm * PX_PER_MM, SHEET_MM.heightMm * PX_PER_MM, "png"]);
    expect(density).toBeCloseTo(254, 0);
    expect(icc).toBeDefined();
    expect(await waveIn(made)).toBeGreaterThan(0.95);
    expect(await waveIn(made)).toBeLessThan(1.05);
  });

  test("in a part of a scan it is read where that part lies", async () => {
    const { file, quad } = await scanOf(3);
    const part = { left: 60, top: 50, width: 480, height: 390 };
    const moved = Object.fromEntries(
      Object.entries(quad).map(([name, { x, y }]) => [name, { x: x - part.left, y: y - part.top }]),
    ) as unknown as Quad;
    const whole = await straightenWhole(file, within, { quad, frame: within, sheetMm: SHEET_MM });
    const ofPart = await straightenWhole(file, part, { quad: moved, frame: part, sheetMm: SHEET_MM });
    const [one, other] = await Promise.all([whole, ofPart].map((each) => sharp(each).raw().toBuffer()));
    expect(other).toEqual(one);
  });

  // the middles of these sides are seen up to 19 px farther out than the corners
  test("sides that a lens bows outwards are read whole", async () => {
    const file = await sharp({ create: { width: WIDTH, height: HEIGHT, channels: 3, background: { r: 220, g: 220, b: 220 } } })
      .png()
      .toBuffer();
    const quad = {
      topLeft: { x: 60, y: 60 },
      topRight: { x: 500, y: 60 },
      bottomRight: { x: 500, y: 400 },
      bottomLeft: { x: 60, y: 400 },
    };
    const made = await straightenWhole(file, within, { quad, radial: 3e-6, frame: within, sheetMm: SHEET_MM });
    const { channels } = await sharp(made).stats();
    expect(channels.map(({ min }) => min)).toEqual([220, 220, 220]);
  });

  test("where the frame ends before the sheet does, the rest is grey", async () => {
    const { file } = await scanOf(0);
    const quad = {
      topLeft: { x: -300, y: 100 },
      topRight: { x: 300, y: 100 },
      bottomRight: { x: 300, y: 500 },
      bottomLeft: { x: -300, y: 500 },
    };
    const { data, info } = await sharp(await straightenWhole(file, within, { quad, frame: within, sheetMm: null }))
      .raw()
      .toBuffer({ resolveWithObject: true });
    expect([info.width, info.height]).toEqual([600, 400]);
    expect([...data.subarray(0, 3)]).toEqual([150, 150, 150]);
  });
});
