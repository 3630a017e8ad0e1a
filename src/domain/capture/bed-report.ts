import { z } from "zod";
import { ownCorners } from "../measure/own-corners.ts";
import type { Outline } from "../measure/reading.ts";
import { regionAround } from "./bed.ts";

const corner = z.tuple([z.number(), z.number()]);
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
          regionPx: z
            .strictObject({ left: z.int(), top: z.int(), width: z.int().positive(), height: z.int().positive() })
            .meta({ description: "the part of the original that becomes the capture" }),
        }),
      )
      .meta({ description: "in reading order" }),
  })
  .meta({ title: "Bed report", description: "One scan with one or more prints, and where each of them lies." });

export type BedReport = z.infer<typeof bedReportSchema>;

type Bed = Omit<BedReport, "prints"> & { readonly outlines: readonly Outline[] };

export function bedReport({ outlines, ...facts }: Bed): BedReport {
  const frame = { left: 0, top: 0, width: facts.widthPx, height: facts.heightPx };
  return {
    ...facts,
    prints: outlines.map((outline) => {
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
        regionPx: { ...regionAround(outline.sheet, frame) },
      };
    }),
  };
}
