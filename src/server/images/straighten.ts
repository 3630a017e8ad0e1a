import { homographyFromMm, project } from "#domain/measure/homography.ts";
import type { Point, Quad } from "#domain/measure/picture.ts";
import { sharp } from "./policy.ts";

type Size = { readonly widthPx: number; readonly heightPx: number };

/** Where the frame ends before the sheet does: the grey that pictures stand on. */
const BEYOND = 150;

/**
 * Lays the part of a picture inside a quad onto an upright rectangle, for the screen: bilinear, in the picture's own 8-bit codes.
 * @param picture an encoded picture of the whole frame, of any size
 * @param quad in px of the frame, pixel centres at whole numbers
 * @returns JPEG
 */
export async function straighten(picture: Uint8Array, frame: Size, quad: Quad, made: Size): Promise<Buffer> {
  const { data, info } = await sharp(picture).toColourspace("srgb").removeAlpha().raw().toBuffer({ resolveWithObject: true });
  const inPicture = ({ x, y }: Point): Point => ({
    x: ((x + 0.5) * info.width) / frame.widthPx - 0.5,
    y: ((y + 0.5) * info.height) / frame.heightPx - 0.5,
  });
  const map = homographyFromMm(made.widthPx, made.heightPx, {
    topLeft: inPicture(quad.topLeft),
    topRight: inPicture(quad.topRight),
    bottomRight: inPicture(quad.bottomRight),
    bottomLeft: inPicture(quad.bottomLeft),
  });
  const { width, height, channels } = info;
  const code = (x: number, y: number, channel: number) =>
    x < 0 || y < 0 || x >= width || y >= height ? BEYOND : (data[(y * width + x) * channels + Math.min(channel, channels - 1)] as number);
  const straight = Buffer.alloc(made.widthPx * made.heightPx * 3);
  for (let row = 0, to = 0; row < made.heightPx; row++) {
    for (let column = 0; column < made.widthPx; column++) {
      const at = project(map, column + 0.5, row + 0.5);
      const [x, y] = [Math.floor(at.x), Math.floor(at.y)];
      const [across, down] = [at.x - x, at.y - y];
      for (let channel = 0; channel < 3; channel++) {
        const above = code(x, y, channel) * (1 - across) + code(x + 1, y, channel) * across;
        const below = code(x, y + 1, channel) * (1 - across) + code(x + 1, y + 1, channel) * across;
        straight[to++] = Math.round(above * (1 - down) + below * down);
      }
    }
  }
  const raw = { width: made.widthPx, height: made.heightPx, channels: 3 } as const;
  return sharp(straight, { raw }).withIccProfile("srgb").jpeg({ quality: 86 }).toBuffer();
}
