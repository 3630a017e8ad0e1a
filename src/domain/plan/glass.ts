/** Refractive indices, from memory of optics tables: air, window glass (crown), magnesium fluoride. */
export const AIR = 1;
export const WINDOW_GLASS = 1.52;
export const COATING = 1.38;

/** Share of the light that one bare surface throws back, straight on: ((n − 1) / (n + 1))² (Fresnel). */
export const surfaceReflection = (index: number): number => ((index - AIR) / (index + AIR)) ** 2;

/** The same at an angle from the normal, as the mean of both polarisations (Fresnel's equations). */
export function surfaceReflectionAt(index: number, degrees: number): number {
  const into = (degrees * Math.PI) / 180;
  const within = Math.asin(Math.sin(into) / index);
  const across = (Math.cos(into) - index * Math.cos(within)) / (Math.cos(into) + index * Math.cos(within));
  const along = (Math.cos(within) - index * Math.cos(into)) / (Math.cos(within) + index * Math.cos(into));
  return (across ** 2 + along ** 2) / 2;
}

/** A surface with a quarter-wave layer, straight on, at the wavelength it is made for: ((n2 − n1²) / (n2 + n1²))². */
export const coatedReflection = (index: number, layerIndex: number): number => ((index - layerIndex ** 2) / (index + layerIndex ** 2)) ** 2;

/**
 * The same at an angle from the normal, as the mean of both polarisations: Airy's sum over one thin layer, |(r + s e^{2iδ}) / (1 + r s e^{2iδ})|²
 * with δ = (π/2) cos of the angle within the layer (M. Born and E. Wolf, Principles of Optics, section 1.6; from memory).
 */
export function coatedReflectionAt(index: number, layerIndex: number, degrees: number): number {
  const sin = Math.sin((degrees * Math.PI) / 180);
  const cosIn = (n: number) => Math.sqrt(1 - (sin / n) ** 2);
  const [air, layer, glass] = [AIR, layerIndex, index].map((n) => ({ across: n * cosIn(n), along: n / cosIn(n) }));
  const twoDelta = Math.PI * cosIn(layerIndex);
  const shareOf = (polarised: "across" | "along") => {
    const step = (a = 0, b = 0) => (a - b) / (a + b);
    const [r, s] = [step(air?.[polarised], layer?.[polarised]), step(layer?.[polarised], glass?.[polarised])];
    const mixed = 2 * r * s * Math.cos(twoDelta);
    return (r ** 2 + s ** 2 + mixed) / (1 + (r * s) ** 2 + mixed);
  };
  return (shareOf("across") + shareOf("along")) / 2;
}

/** What a pane of plain glass, and one with a quarter-wave layer on both faces, throws back of light at an angle from upright. */
export const panesAt = (degrees: number): { readonly plain: number; readonly coated: number } => ({
  plain: plateReflection(surfaceReflectionAt(WINDOW_GLASS, degrees)),
  coated: plateReflection(coatedReflectionAt(WINDOW_GLASS, COATING, degrees)),
});

/** A plate throws back from both faces, again and again between them: 2R / (1 + R), light that does not interfere. */
export const plateReflection = (surface: number): number => (2 * surface) / (1 + surface);

export const GLASSES = { none: "No glass", plain: "Plain glass", coated: "Glass with one anti-reflection layer" } as const;
export type Glass = keyof typeof GLASSES;

export const isGlass = (text: string): text is Glass => Object.hasOwn(GLASSES, text);

/**
 * Share of the light of whatever faces the glass that comes back into the lens with the picture: what its maker says of the pane, else
 * what plain glass or one quarter-wave layer of magnesium fluoride does. Glass with several layers is not worked out.
 */
export function glassReflection(glass: Glass, saidPercent: number | null = null): number {
  if (glass === "none") return 0;
  if (saidPercent !== null) return saidPercent / 100;
  return plateReflection(glass === "plain" ? surfaceReflection(WINDOW_GLASS) : coatedReflection(WINDOW_GLASS, COATING));
}
