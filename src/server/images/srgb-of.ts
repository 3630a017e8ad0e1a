import { linearToSrgb, SRGB_TO_XYZ_D50 } from "#domain/measure/colour/srgb.ts";
import { solve } from "#domain/measure/numbers/least-squares.ts";
import type { Picture } from "#domain/measure/picture.ts";

/** 8-bit sRGB of codes of a picture, colours that the screen cannot show cut off at its ends. */
export function srgbOf(codes: Uint8Array | Uint16Array, { linearOf, toXyzD50 }: Pick<Picture, "linearOf" | "toXyzD50">): Uint8Array {
  const [red, green, blue] = linearOf;
  const columns = [0, 1, 2].map(
    (k) =>
      solve(
        SRGB_TO_XYZ_D50,
        [0, 3, 6].map((row) => toXyzD50[row + k] as number),
      ) as number[],
  );
  const [a, b, c, d, e, f, g, h, i] = [0, 1, 2].flatMap((row) => columns.map((column) => column[row] as number)) as Nine;
  const shown = new Uint8Array(codes.length);
  for (let at = 0; at < codes.length; at += 3) {
    const x = red[codes[at] as number] as number;
    const y = green[codes[at + 1] as number] as number;
    const z = blue[codes[at + 2] as number] as number;
    shown[at] = codeOf(a * x + b * y + c * z);
    shown[at + 1] = codeOf(d * x + e * y + f * z);
    shown[at + 2] = codeOf(g * x + h * y + i * z);
  }
  return shown;
}

type Nine = [number, number, number, number, number, number, number, number, number];

/** Codes of so many steps of linear light: twenty steps to the narrowest code. */
const STEPS = 65535;
const CODES = Uint8Array.from({ length: STEPS + 1 }, (_, step) => Math.round(255 * linearToSrgb(step / STEPS)));

const codeOf = (linear: number) => CODES[Math.round(STEPS * Math.min(1, Math.max(0, linear)))] as number;
