/**
 * What an aperture does to fine detail of a print: too wide, and what stands off the plane of focus is soft; too narrow, and
 * diffraction softens all. Formulas: W. J. Smith, Modern Optical Engineering, chapters on diffraction and depth of focus (from
 * memory); depth of field with pupil factor as derived by many, the plain form with P = 1.
 */
export type Optics = {
  readonly magnification: number;
  /** as set on the lens */
  readonly fNumber: number;
  /** exit pupil / entrance pupil; 1 for a symmetric lens */
  readonly pupilMagnification: number;
};

/** Green, where the eye and a sensor see most. */
const WAVELENGTH_MM = 0.00055;

/** The light a lens really gives close up: N (1 + m / P). */
export const effectiveFNumber = ({ magnification, fNumber, pupilMagnification }: Optics): number =>
  fNumber * (1 + magnification / pupilMagnification);

/** Depth in mm of the print's space in which a point spreads to no more than `circleMm` on the sensor: 2 N c (1/m + 1/P) / m. */
export const depthOfFieldMm = ({ magnification: m, fNumber, pupilMagnification }: Optics, circleMm: number): number =>
  (2 * fNumber * circleMm * (1 / m + 1 / pupilMagnification)) / m;

/** Across the disc that a point `offMm` from the plane of focus makes, in mm of the print: the same formula, solved for c / m. */
export const blurDiscMm = ({ magnification: m, fNumber, pupilMagnification }: Optics, offMm: number): number =>
  Math.abs(offMm) / (fNumber * (1 / m + 1 / pupilMagnification));

/** Diameter in mm on the sensor of the first dark ring round a point (Airy): 2.44 λ N of the effective aperture. */
export const airyDiscMm = (optics: Optics): number => 2.44 * WAVELENGTH_MM * effectiveFNumber(optics);

/** Beyond this many cycles per mm of the print no lens shows anything: m / (λ N) of the effective aperture. */
export const cutOffCyPerMm = (optics: Optics): number => optics.magnification / (WAVELENGTH_MM * effectiveFNumber(optics));

/** Contrast that a perfect round lens leaves at a frequency on the print: (2/π)(arccos s − s √(1 − s²)), s = ν / cut-off. */
export function diffractionResponse(optics: Optics, cyPerMm: number): number {
  const s = cyPerMm / cutOffCyPerMm(optics);
  return s >= 1 ? 0 : (2 / Math.PI) * (Math.acos(s) - s * Math.sqrt(1 - s * s));
}

const STEPS = 400;

/**
 * Contrast that an even disc of blur leaves: 2 J1(πdν) / (πdν), worked out as the mean of cos(πdν t) over the disc's chords,
 * weighted by their length; negative where light and dark have changed places.
 */
export function discResponse(discMm: number, cyPerMm: number): number {
  const x = Math.PI * discMm * cyPerMm;
  let sum = 0;
  // t = sin u makes the ends smooth, so that the midpoint rule converges fast
  for (let i = 0; i < STEPS; i++) {
    const u = ((i + 0.5) / STEPS - 0.5) * Math.PI;
    sum += Math.cos(u) ** 2 * Math.cos(x * Math.sin(u));
  }
  return (2 * sum) / STEPS;
}

/** Contrast that square pixels leave: sin(πpν) / (πpν), p the distance between samples on the print, all of it sensitive. */
export function pixelResponse(ppi: number, cyPerMm: number): number {
  const x = (Math.PI * 25.4 * cyPerMm) / ppi;
  return x === 0 ? 1 : Math.sin(x) / x;
}

export type ApertureResponse = {
  readonly fNumber: number;
  /** in the plane of focus */
  readonly inFocus: number;
  /** at the highest and lowest place of the print, with the focus half-way between */
  readonly atTheEnds: number;
};

/** Apertures by thirds of a stop, as lenses are marked. */
const F_NUMBERS: readonly number[] = [2.8, 3.2, 3.5, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9, 10, 11, 13, 14, 16, 18, 20, 22, 25, 29, 32];

/**
 * Contrast at one frequency on the print for each aperture, of a lens without faults of its own: diffraction × defocus × pixel.
 * The product stands for the exact integral of both (H. H. Hopkins 1955); it is a little low where they are of like size. A real
 * lens gives less, most of all wide open: an upper bound.
 */
export function apertureResponses(
  optics: Omit<Optics, "fNumber">,
  depthMm: number,
  ppi: number,
  cyPerMm: number,
  fNumbers: readonly number[] = F_NUMBERS,
): ApertureResponse[] {
  return fNumbers.map((fNumber) => {
    const inFocus = diffractionResponse({ ...optics, fNumber }, cyPerMm) * pixelResponse(ppi, cyPerMm);
    const disc = blurDiscMm({ ...optics, fNumber }, depthMm / 2);
    // past the first zero of the disc contrast is reversed and serves nobody
    const atTheEnds = disc * cyPerMm >= FIRST_ZERO ? 0 : inFocus * discResponse(disc, cyPerMm);
    return { fNumber, inFocus, atTheEnds };
  });
}

/** J1 is zero first at 3.8317, so the disc's response at dν = 1.2197. */
const FIRST_ZERO = 3.8317 / Math.PI;

/** The contrast at which a system's frequency is named as SFR50: asked of an aperture where any gives it. */
export const HALF_CONTRAST = 0.5;
/** Share of the best contrast that an aperture may cost and still stand beside the best (own figure). */
const AS_GOOD_AS_BEST = 0.9;

export type ApertureWindow = {
  /** leaves the most contrast where the print is worst served */
  readonly best: ApertureResponse;
  /**
   * the smallest opening that leaves nearly as much: a real lens is seldom at its best wide open, and depth in hand forgives an
   * error of focus (common practice, no source)
   */
  readonly proposed: ApertureResponse;
  /** the widest and the smallest opening, of those worked out, that keep half the contrast; null where none does */
  readonly half: { readonly from: number; readonly to: number } | null;
};

/** The apertures between depth of field and diffraction; null where none leaves any contrast. */
export function apertureWindow(responses: readonly ApertureResponse[]): ApertureWindow | null {
  const best = responses.reduce<ApertureResponse | null>((so, one) => (so && so.atTheEnds >= one.atTheEnds ? so : one), null);
  if (best === null || best.atTheEnds <= 0) return null;
  const least = Math.max(AS_GOOD_AS_BEST * best.atTheEnds, Math.min(HALF_CONTRAST, best.atTheEnds));
  const proposed = responses.findLast(({ atTheEnds }) => atTheEnds >= least);
  const keeping = responses.filter(({ atTheEnds }) => atTheEnds >= HALF_CONTRAST);
  const [widest, smallest] = [keeping[0], keeping.at(-1)];
  return { best, proposed: proposed ?? best, half: widest && smallest ? { from: widest.fNumber, to: smallest.fNumber } : null };
}
