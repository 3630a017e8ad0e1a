import { instantiate } from "lcms-wasm";

/** The colour engine, loaded once a thread. */
export type LittleCms = Awaited<ReturnType<typeof instantiate>>;

let loaded: Promise<LittleCms> | null = null;

export function littleCms(): Promise<LittleCms> {
  loaded ??= instantiate();
  return loaded;
}

// Formats with 32-bit floats, as lcms2.h packs them: float flag, colour space, channels, bytes.
// The ready-made "double" constants of this build are wrong for the arrays it passes.
const float = (space: number, channels: number) => (1 << 22) | (space << 16) | (channels << 3) | 4;
export const FLOAT_GREY = float(3, 1);
export const FLOAT_RGB = float(4, 3);
export const FLOAT_LAB = float(10, 3);

export const RELATIVE_COLORIMETRIC = 1;
