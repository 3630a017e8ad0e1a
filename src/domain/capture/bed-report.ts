import { z } from "zod";
import { SIDES } from "../measure/lines.ts";
import { ownCorners } from "../measure/own-corners.ts";
import type { Picture } from "../measure/picture.ts";
import type { MeasureContext, Outline } from "../measure/reading.ts";
import { regionAround } from "./bed.ts";
import { sizeAsClaimed, sizeAsSaid } from "./size-on-bed.ts";

const corner = z.tuple([z.number(), z.number()]);
/** as it lies in the image */
const size = z.strictObject({
  widthMm: z.number().positive(),
  heightMm: z.number().positive(),
  samplingPpi: z.number().positive().meta({ description: "the lower of both directions" }),
});
const side = z.enum(["seen", "assumed", "cut-off"]);

/** The prints on one scan: the answer of the command line for programs. */
export const bedReportSchema = z
  .strictObject({
    file: z.string(),
    sha256: z.string().regex(/^[0-9a-f]{64}$/),
    widthPx: z.int().positive(),
    heightPx: z.int().positive(),
    prints: z
      .array(
        z.strictObject({
          outlinePx: z.tuple([corner, corner, corner, corner]).meta({
            description: "corners of the sheet, clockwise from the print's own top left, in px of the upright image",
          }),
          cornerSpreadPx: z.number().nonnegative(),
          sides: z
            .strictObject({ top: side, right: side, bottom: side, left: side })
            .meta({ description: "as seen in the image: seen as an edge of its own, assumed from the format, or cut off by the frame" }),
          doubted: z.array(z.enum(SIDES)).meta({
            description: "those of the assumed sides along which an edge is seen all the same, which may be something else's",
          }),
          regionPx: z
            .strictObject({ left: z.int(), top: z.int(), width: z.int().positive(), height: z.int().positive() })
            .meta({ description: "the part of the original that becomes the capture" }),
          said: size.nullable().meta({
            description: "the size that was said, and the sampling that follows from it; null: none was said, or it is another print's",
          }),
          claimed: size.nullable().meta({
            description: "the size that follows from the pixels per inch that the file claims; null: it claims none that can be meant",
          }),
          straightened: z.string().nullable().meta({ description: "the file that was written of it (--straightened); null: none was" }),
        }),
      )
      .meta({ description: "in reading order" }),
  })
  .meta({ title: "Bed report", description: "One scan with one or more prints, and where each of them lies." });

export type BedReport = z.infer<typeof bedReportSchema>;

type Bed = Pick<BedReport, "file" | "sha256"> & {
  readonly picture: Picture;
  readonly outlines: readonly Outline[];
  readonly context: MeasureContext;
  /** the files written of the prints, in their order; empty where none was asked for */
  readonly straightened: readonly string[];
};

export function bedReport({ file, sha256, picture, outlines, context, straightened }: Bed): BedReport {
  const { widthPx, heightPx } = picture;
  const frame = { left: 0, top: 0, width: widthPx, height: heightPx };
  return {
    file,
    sha256,
    widthPx,
    heightPx,
    prints: outlines.map((outline, index) => {
      const [a, b, c, d] = ownCorners(outline);
      return {
        outlinePx: [
          [a.x, a.y],
          [b.x, b.y],
          [c.x, c.y],
          [d.x, d.y],
        ],
        cornerSpreadPx: outline.cornerSpreadPx,
        sides: { ...outline.sides },
        doubted: [...(outline.doubted ?? [])],
        regionPx: { ...regionAround(outline.sheet, frame) },
        said: sizeAsSaid(picture, outline, context),
        claimed: sizeAsClaimed(outline, context),
        straightened: straightened[index] ?? null,
      };
    }),
  };
}
