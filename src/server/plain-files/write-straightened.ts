import { writeFile } from "node:fs/promises";
import path from "node:path";
import { claimedSize } from "#domain/measure/geometry/claimed-size.ts";
import { quadOf } from "#domain/measure/lines.ts";
import { ownQuad } from "#domain/measure/outline/own-quad.ts";
import { ownCorners } from "#domain/measure/own-corners.ts";
import type { Outline } from "#domain/measure/reading.ts";
import { leastMisfit } from "#domain/measure/size-as-seen.ts";
import { kindOfFile } from "../images/kind-of-file.ts";
import { readable } from "../images/readable.ts";
import { straightenWhole } from "../images/straighten-whole.ts";
import type { PlainFile } from "./read-plain-file.ts";

/** Proportions that differ by more are of another print (natural logarithm), as for the sampling. */
const SAME_PROPORTIONS = 0.05;

/**
 * Writes each print of a file upright, from the file's own pixels and no coarser than they are, in the order of the outlines. Where no
 * size was said, the pixels per inch that the file claims are claimed for its parts too.
 * @returns the names of the files written
 */
export async function writeStraightened(
  folder: string,
  { file, sha256, picture, context }: Pick<PlainFile, "file" | "sha256" | "picture" | "context">,
  outlines: readonly Outline[],
): Promise<string[]> {
  const { kind } = await kindOfFile(file);
  if (kind === null) return [];
  const input = await readable(file, kind);
  const frame = { left: 0, top: 0, width: picture.widthPx, height: picture.heightPx };
  const { sheetWidthMm: widthMm, sheetHeightMm: heightMm } = context;
  const saidMm = widthMm !== null && heightMm !== null ? { widthMm, heightMm } : null;
  const written: string[] = [];
  for (const [index, outline] of outlines.entries()) {
    // what was said of one print would stretch another that lies beside it
    const ownMm = leastMisfit(outline.sheet, widthMm, heightMm) <= SAME_PROPORTIONS ? saidMm : null;
    const quad = ownMm ? ownQuad(outline, ownMm) : quadOf(ownCorners(outline));
    const sheetMm = ownMm ?? claimedSize(quad, context);
    const target = path.join(folder, `${path.parse(file).name}.${sha256.slice(0, 8)}.part-${index + 1}.png`);
    await writeFile(target, await straightenWhole(input, frame, { quad, radial: outline.radial, frame, sheetMm }));
    written.push(target);
  }
  return written;
}
