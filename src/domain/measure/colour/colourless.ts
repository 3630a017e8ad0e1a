import type { Picture } from "../picture.ts";

/** Whether red, green and blue are the same everywhere, as in a grey file: then nothing about colour can be read, and "none" would be a wrong answer. */
export function isColourless({ codes }: Picture): boolean {
  for (let at = 0; at < codes.length; at += 3) {
    const green = codes[at + 1];
    if (codes[at] !== green || codes[at + 2] !== green) return false;
  }
  return true;
}

export const HOLDS_NO_COLOUR = "the file holds greys only; a capture in colour would tell";
