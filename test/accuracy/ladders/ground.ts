import { type CapturedSheet, captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { lightOfLightness } from "../../fixtures/light-of-lightness.ts";
import { type BackgroundKind, backgroundAt, type Rgb } from "../../fixtures/picture-scenes.ts";
import type { Ladder } from "../ladder.ts";

export type GroundKind = "plain" | "checked" | "wood grain" | "cloth";
export const GROUND_KINDS: readonly GroundKind[] = ["plain", "checked", "wood grain", "cloth"];

/** How much darker, in L*, the middle of the ground is than the paper; strong first, the paper's own lightness last. */
export const GROUND_CONTRASTS = [50, 25, 12, 6, 3, 0] as const;

/** Linear light of the paper: off-white, so that a ground as bright has room for its pattern. */
const PAPER: Rgb = [0.62, 0.61, 0.58];
const PAPER_LIGHTNESS = 82.3;

const TEXTURES: Readonly<Record<GroundKind, BackgroundKind | null>> = {
  plain: null,
  checked: "patterned-table",
  "wood grain": "wood-grain",
  cloth: "dark-cloth",
};

/** With borders, with a picture to its edge, and as plain as a back. */
const PRINTS = [
  { ...SMALL, paper: PAPER },
  { widthMm: 44, heightMm: 52, paper: PAPER },
  { widthMm: 52, heightMm: 44, border: { left: 3, right: 3, top: 3, bottom: 3 }, paper: PAPER },
  { widthMm: 44, heightMm: 52, paper: PAPER, content: "pale-wall" },
] as const;

/**
 * A print on a ground of which the mean is `contrast` L* darker than its paper and has, towards no contrast, the paper's
 * own colour; the pattern keeps its own contrast of light and, as far as the mean is away from the paper, its hue.
 */
export function drawOnGround(kind: GroundKind, contrast: number, seed: number): CapturedSheet {
  const level = lightOfLightness(PAPER_LIGHTNESS - contrast);
  const texture = TEXTURES[kind];
  const mean = texture ? meanOf(texture, seed) : null;
  const ground = (xMm: number, yMm: number, blurMm: number): Rgb => {
    const paperHue = PAPER.map((value) => value / PAPER[1]) as Rgb;
    if (!texture || !mean) return paperHue.map((hue) => hue * level) as Rgb;
    const at = backgroundAt(texture, xMm, yMm, blurMm, seed);
    return at.map((value, channel) => Math.min(0.97, level * (paperHue[channel] as number) * (value / (mean[channel] as number)))) as Rgb;
  };
  return captureSheet({
    ground,
    bedPxPerMm: 200 / 25.4 / 0.6,
    print: PRINTS[seed % PRINTS.length] ?? PRINTS[0],
    turnDeg: ((seed * 7) % 11) - 5,
    keystoneDown: (((seed * 5) % 7) - 3) / 100,
    light: { fallOff: 0.1, across: 0.06 },
    noise: 0.5,
    seed,
  });
}

function meanOf(texture: BackgroundKind, seed: number): Rgb {
  const sum: Rgb = [0, 0, 0];
  const count = 40;
  for (let row = 0; row < count; row++) {
    for (let column = 0; column < count; column++) {
      const at = backgroundAt(texture, column * 2.3, row * 2.7, 0.1, seed);
      for (let channel = 0; channel < 3; channel++) sum[channel] = (sum[channel] as number) + (at[channel] as number) / count ** 2;
    }
  }
  return sum;
}

/** Grounds ever nearer to the paper: how much of the print is still told from them, and how well its size is. */
export const groundLadders: readonly Ladder[] = GROUND_KINDS.map((kind) => ({
  defect: `ground nearly as light as the paper: ${kind}`,
  reads: [
    { measure: "sidesSeen", truth: () => 4 },
    { measure: "samplingPpi", truth: () => 200 },
  ],
  levels: GROUND_CONTRASTS,
  levelUnit: "L* darker than the paper",
  draw: (level, seed) => drawOnGround(kind, level, seed),
}));
