import type { Lab } from "./lab.ts";

/**
 * Colour difference of two colours by CIEDE2000, k_L = k_C = k_H = 1. Meant for small differences, up to about 5;
 * the formula jumps slightly where hues lie 180° apart.
 *
 * Source: CIE 142-2001 and ISO/CIE 11664-6, as worked out in G. Sharma, W. Wu, E. N. Dalal, Color Research and
 * Application 30(1), 21–30, 2005.
 */
export function ciede2000(first: Lab, second: Lab): number {
  const meanChroma = (Math.hypot(first[1], first[2]) + Math.hypot(second[1], second[2])) / 2;
  const stretch = 1 + 0.5 * (1 - Math.sqrt(meanChroma ** 7 / (meanChroma ** 7 + 25 ** 7)));
  const one = polar(first, stretch);
  const two = polar(second, stretch);
  const bothColoured = one.chroma * two.chroma !== 0;

  const turn = bothColoured ? shortestTurn(two.hue - one.hue) : 0;
  const lightnessStep = second[0] - first[0];
  const chromaStep = two.chroma - one.chroma;
  const hueStep = 2 * Math.sqrt(one.chroma * two.chroma) * sine(turn / 2);

  const lightness = (first[0] + second[0]) / 2;
  const chroma = (one.chroma + two.chroma) / 2;
  const hue = bothColoured ? meanHue(one.hue, two.hue) : one.hue + two.hue;

  const t = 1 - 0.17 * cosine(hue - 30) + 0.24 * cosine(2 * hue) + 0.32 * cosine(3 * hue + 6) - 0.2 * cosine(4 * hue - 63);
  const rotation = -sine(60 * Math.exp(-(((hue - 275) / 25) ** 2))) * 2 * Math.sqrt(chroma ** 7 / (chroma ** 7 + 25 ** 7));
  const forLightness = lightnessStep / (1 + (0.015 * (lightness - 50) ** 2) / Math.sqrt(20 + (lightness - 50) ** 2));
  const forChroma = chromaStep / (1 + 0.045 * chroma);
  const forHue = hueStep / (1 + 0.015 * chroma * t);
  return Math.sqrt(forLightness ** 2 + forChroma ** 2 + forHue ** 2 + rotation * forChroma * forHue);
}

function polar([, a, b]: Lab, stretch: number): { chroma: number; hue: number } {
  const hue = (Math.atan2(b, stretch * a) * 180) / Math.PI;
  return { chroma: Math.hypot(stretch * a, b), hue: hue < 0 ? hue + 360 : hue };
}

const shortestTurn = (degrees: number) => (degrees > 180 ? degrees - 360 : degrees < -180 ? degrees + 360 : degrees);

function meanHue(one: number, two: number): number {
  if (Math.abs(one - two) <= 180) return (one + two) / 2;
  return one + two < 360 ? (one + two + 360) / 2 : (one + two - 360) / 2;
}

const sine = (degrees: number) => Math.sin((degrees * Math.PI) / 180);
const cosine = (degrees: number) => Math.cos((degrees * Math.PI) / 180);
