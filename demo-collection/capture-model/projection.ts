/**
 * The way from the plane the print lies on (mm, origin in the middle, y downwards) to pixels, and
 * back. Pixel (x, y) has its centre at whole numbers.
 */
export type Projection = {
  readonly widthPx: number;
  readonly heightPx: number;
  /** plane to pixels, 3 × 3, row by row */
  readonly toPixels: Matrix;
  readonly toPlane: Matrix;
  /** per row: how far the transport ran ahead when it was read, px; absent where a whole frame is seen at once */
  readonly rowShiftPx?: Float32Array;
};

export type Matrix = readonly [number, number, number, number, number, number, number, number, number];

export type Pose = {
  readonly widthPx: number;
  readonly heightPx: number;
  /** focal length for a 36 × 24 mm frame of the same diagonal */
  readonly focalLength35Mm: number;
  readonly distanceMm: number;
  /** towards or away from the camera: top of the print, right of the print */
  readonly tiltXDegrees: number;
  readonly tiltYDegrees: number;
  readonly turnDegrees: number;
  /** where the middle of the plane falls, px from the middle of the frame */
  readonly offsetPx: readonly [number, number];
};

const DIAGONAL_35_MM = Math.hypot(36, 24);

/** A pinhole camera at a height above the plane: H = K [r1 r2 t] (Hartley & Zisserman 2004, 8.1.1, from memory). */
export function pinhole(pose: Pose): Projection {
  const focalPx = focalLengthPx(pose);
  const [a, b, c] = [pose.tiltXDegrees, pose.tiltYDegrees, pose.turnDegrees].map((degrees) => (degrees * Math.PI) / 180) as [
    number,
    number,
    number,
  ];
  const [sa, ca, sb, cb, sc, cc] = [Math.sin(a), Math.cos(a), Math.sin(b), Math.cos(b), Math.sin(c), Math.cos(c)];
  // the plane turns in itself first, then tilts about the frame's x and y
  const r1 = [cb * cc + sb * sa * sc, ca * sc, -sb * cc + cb * sa * sc] as const;
  const r2 = [-cb * sc + sb * sa * cc, ca * cc, sb * sc + cb * sa * cc] as const;
  const cx = (pose.widthPx - 1) / 2 + pose.offsetPx[0];
  const cy = (pose.heightPx - 1) / 2 + pose.offsetPx[1];
  const z = pose.distanceMm;
  const toPixels: Matrix = [
    focalPx * r1[0] + cx * r1[2],
    focalPx * r2[0] + cx * r2[2],
    cx * z,
    focalPx * r1[1] + cy * r1[2],
    focalPx * r2[1] + cy * r2[2],
    cy * z,
    r1[2],
    r2[2],
    z,
  ];
  return { widthPx: pose.widthPx, heightPx: pose.heightPx, toPixels, toPlane: inverse(toPixels) };
}

export const focalLengthPx = (pose: Pick<Pose, "widthPx" | "heightPx" | "focalLength35Mm">): number =>
  (pose.focalLength35Mm / DIAGONAL_35_MM) * Math.hypot(pose.widthPx, pose.heightPx);

/** A scanner: the same scale everywhere, but not always the same along the transport. */
export function flat(
  widthPx: number,
  heightPx: number,
  pxPerMmX: number,
  pxPerMmY: number,
  turnDegrees: number,
  rowShiftPx?: Float32Array,
): Projection {
  const turn = (turnDegrees * Math.PI) / 180;
  const toPixels: Matrix = [
    pxPerMmX * Math.cos(turn),
    -pxPerMmX * Math.sin(turn),
    (widthPx - 1) / 2,
    pxPerMmY * Math.sin(turn),
    pxPerMmY * Math.cos(turn),
    (heightPx - 1) / 2,
    0,
    0,
    1,
  ];
  const projection = { widthPx, heightPx, toPixels, toPlane: inverse(toPixels) };
  return rowShiftPx ? { ...projection, rowShiftPx } : projection;
}

export function project(m: Matrix, x: number, y: number): { x: number; y: number } {
  const w = m[6] * x + m[7] * y + m[8];
  return { x: (m[0] * x + m[1] * y + m[2]) / w, y: (m[3] * x + m[4] * y + m[5]) / w };
}

function inverse(m: Matrix): Matrix {
  const [a, b, c, d, e, f, g, h, i] = m;
  const determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  return [
    (e * i - f * h) / determinant,
    (c * h - b * i) / determinant,
    (b * f - c * e) / determinant,
    (f * g - d * i) / determinant,
    (a * i - c * g) / determinant,
    (c * d - a * f) / determinant,
    (d * h - e * g) / determinant,
    (b * g - a * h) / determinant,
    (a * e - b * d) / determinant,
  ];
}
