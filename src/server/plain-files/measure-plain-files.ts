import { type CaptureReport, captureReport } from "#domain/measure/capture-report.ts";
import { compareCaptures } from "#domain/measure/compare-captures.ts";
import { holdingReadings } from "#domain/measure/holding-readings.ts";
import type { PrintGrid } from "#domain/measure/laying/print-grid.ts";
import { largestOutline, measureCapture } from "#domain/measure/measure-capture.ts";
import type { Picture } from "#domain/measure/picture.ts";
import type { Outline, Reading } from "#domain/measure/reading.ts";
import { done, type Outcome } from "#domain/outcome.ts";
import { decodeReadable } from "../images/decode.ts";
import { inspect } from "../intake/inspect.ts";
import { type PlainFile, readPlainFile, type SaidOfPrint } from "./read-plain-file.ts";

/** A file with what it tells alone; its pixels are let go. */
export type MeasuredFile = Pick<PlainFile, "file" | "sha256" | "method"> & {
  readonly widthPx: number;
  readonly heightPx: number;
  /** where there are several, the largest was measured */
  readonly printsFound: number;
  readonly outline: Outline | null;
  readonly readings: readonly Reading[];
  readonly grid: PrintGrid | null;
};

/** Reads everything one file tells, as a collection would. */
export async function measurePlainFile(file: string, said: SaidOfPrint): Promise<Outcome<MeasuredFile>> {
  const read = await readPlainFile(file, said);
  if (!read.ok) return read;
  const { picture, context, capturedAt: _, ...facts } = read.value;
  const { readings, outlines, grid } = measureCapture(picture, context);
  return done({
    ...facts,
    widthPx: picture.widthPx,
    heightPx: picture.heightPx,
    printsFound: outlines.length,
    outline: largestOutline(outlines),
    readings,
    grid,
  });
}

/** Adds what captures of one side of one print tell only beside each other. */
export async function comparePlainFiles(files: readonly MeasuredFile[]): Promise<MeasuredFile[]> {
  const compared = await compareCaptures(
    files.flatMap(({ grid }, captureId) => (grid ? [{ captureId, grid }] : [])),
    async (captureId) => decodedAgain(files[captureId]?.file),
  );
  return files.map((file, index) => {
    const together = compared.find(({ captureId }) => captureId === index)?.readings ?? [];
    return { ...file, readings: holdingReadings(file.readings, together) };
  });
}

/** Null where the file has gone or changed since it was measured. */
export async function decodedAgain(file: string | undefined): Promise<Picture | null> {
  const inspected = file === undefined ? null : await inspect(file, file, decodeReadable);
  return inspected?.ok ? inspected.value.picture : null;
}

export const reportOf = ({ grid: _, ...read }: MeasuredFile): CaptureReport => captureReport(read);
