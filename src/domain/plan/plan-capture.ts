import type { Arrangement } from "./arrangement.ts";
import { type CameraPlan, planCamera } from "./camera-plan.ts";
import { glassReflection } from "./glass.ts";
import { type Job, type SizeClass, sizeClasses } from "./job.ts";
import { type Extent, pixelsAcross, withMargin } from "./sampling.ts";
import { fileBytes } from "./time-and-cost.ts";
import { type PlanWarning, warningsOfCamera, warningsOfScanner } from "./warnings.ts";

/** How prints of one size are captured with an arrangement, and what stands in the way. */
export type SizePlan = {
  readonly size: SizeClass;
  readonly ppi: number;
  readonly reach: "aimed" | "least" | "short";
  /** the print alone, in pixels */
  readonly printPx: { readonly width: number; readonly height: number };
  /** one file, uncompressed */
  readonly bytes: number;
  /** null for a scanner */
  readonly camera: CameraPlan | null;
  /** null for a camera */
  readonly scanner: { readonly needed: Extent; readonly fitsBed: boolean | null } | null;
  readonly warnings: readonly PlanWarning[];
};

export type CapturePlan = {
  readonly sizes: readonly SizePlan[];
  /** files of all prints, uncompressed */
  readonly bytes: number;
  /** share of the light of what faces the glass that comes into the picture */
  readonly glassReflection: number;
};

/** A plan for every size of print in the job, the largest first. */
export function planCapture(arrangement: Arrangement, job: Job): CapturePlan {
  const sizes = sizeClasses(job.prints).map((size) => planSize(arrangement, size, job));
  return {
    sizes,
    bytes: sizes.reduce((sum, { bytes, size }) => sum + bytes * size.prints.length, 0),
    glassReflection: glassReflection(arrangement.glass, arrangement.glassPercent),
  };
}

function planSize(arrangement: Arrangement, size: SizeClass, job: Job): SizePlan {
  const { camera, scanner, bitsPerSample } = arrangement;
  if (camera) {
    const plan = planCamera(camera, arrangement, size, job);
    return {
      ...sampled(plan.ppi, size, job),
      bytes: fileBytes(camera.sensor.widthPx, camera.sensor.heightPx, bitsPerSample),
      camera: plan,
      scanner: null,
      warnings: warningsOfCamera(plan, camera, arrangement, job),
    };
  }
  const ppi = scanner?.ppi ?? 0;
  const needed = withMargin(size, job.marginMm);
  const fitsBed = scanner ? fits(needed, scanner.bedWidthMm, scanner.bedHeightMm) : null;
  return {
    ...sampled(ppi, size, job),
    bytes: fileBytes(pixelsAcross(needed.widthMm, ppi), pixelsAcross(needed.heightMm, ppi), bitsPerSample),
    camera: null,
    scanner: { needed, fitsBed },
    warnings: warningsOfScanner({ ppi, fitsBed }, arrangement, job),
  };
}

const sampled = (ppi: number, size: SizeClass, { asked }: Job): Pick<SizePlan, "size" | "ppi" | "reach" | "printPx"> => ({
  size,
  ppi,
  reach: ppi >= asked.aimedPpi ? "aimed" : ppi >= asked.leastPpi ? "least" : "short",
  printPx: { width: pixelsAcross(size.widthMm, ppi), height: pixelsAcross(size.heightMm, ppi) },
});

/** Lying or standing; null where a side of the bed is not known. */
function fits(needed: Extent, bedWidthMm: number | null, bedHeightMm: number | null): boolean | null {
  if (bedWidthMm === null || bedHeightMm === null) return null;
  const short = (a: number, b: number) => [Math.min(a, b), Math.max(a, b)] as const;
  const [bedShort, bedLong] = short(bedWidthMm, bedHeightMm);
  const [needShort, needLong] = short(needed.widthMm, needed.heightMm);
  return needShort <= bedShort && needLong <= bedLong;
}
