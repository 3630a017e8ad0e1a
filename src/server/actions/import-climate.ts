import { statSync } from "node:fs";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import { type ImportReport, ProblemTally } from "#domain/storage/climate/import-report.ts";
import type { LoggerMapping } from "#domain/storage/climate/logger-mapping.ts";
import { rowReader } from "#domain/storage/climate/read-row.ts";
import { insertClimateImport } from "#drizzle/queries/climate.ts";
import { ClimateStaging, type StagedReading } from "#drizzle/queries/climate-staging.ts";
import { recordEvent } from "#drizzle/queries/events.ts";
import { findPlace } from "#drizzle/queries/places.ts";
import { loggerRows } from "../climate/logger-file.ts";
import type { Context } from "../context.ts";

export type ImportClimate = {
  readonly placeId: number;
  /** path of the file, which is only read */
  readonly file: string;
  /** as it came to the keeper */
  readonly fileName: string;
  readonly mapping: LoggerMapping;
  readonly onProgress?: (progress: { rows: number; bytes: number; bytesOfAll: number }) => void;
  readonly stop?: AbortSignal;
};

/** Readings that are handed to the database at once; between two lots other work gets its turn. */
const LOT = 5000;

/**
 * Reads a logger's file into a place: row by row, in bounded memory. All of its readings come into the collection in one transaction
 * at the end, or none does. Readings that the place has already stay as they are.
 */
export async function importClimate(context: Context, input: ImportClimate): Promise<Outcome<{ importId: number; report: ImportReport }>> {
  if (!findPlace(context.db, input.placeId)) return refused(NO_PLACE);
  const staging = new ClimateStaging(context.db);
  const tally = new ProblemTally();
  try {
    const rows = await stage(input, staging, tally);
    if (input.stop?.aborted) return refused(STOPPED);
    return keep(context, input, staging, tally, rows);
  } catch (error) {
    if (input.stop?.aborted) return refused(STOPPED);
    if (isCsvFault(error)) return refused(unreadable(input.fileName));
    throw error;
  } finally {
    staging.drop();
  }
}

async function stage({ file, mapping, onProgress, stop }: ImportClimate, staging: ClimateStaging, tally: ProblemTally): Promise<number> {
  const bytesOfAll = statSync(file).size;
  const readRow = rowReader(mapping);
  let row = 0;
  let bytes = 0;
  let lot: StagedReading[] = [];
  const flush = () => {
    for (const { reading, problem } of staging.add(lot)) tally.add(problem, reading.row, momentInIso(reading.atSeconds));
    lot = [];
    onProgress?.({ rows: row, bytes, bytesOfAll });
  };
  const onBytes = (read: number) => {
    bytes = read;
  };
  for await (const cells of loggerRows(file, mapping.delimiter, { onBytes, ...(stop && { signal: stop }) })) {
    row++;
    if (row < mapping.firstRow || cells.every((cell) => cell.trim() === "")) continue;
    const { reading, problems } = readRow(cells);
    for (const problem of problems) tally.add(problem, row, cells.join(" | "));
    if (reading) lot.push({ ...reading, row });
    if (lot.length >= LOT) {
      flush();
      // lets requests, and an asking to stop, have their turn
      await new Promise((resolve) => setImmediate(resolve));
    }
  }
  flush();
  return row;
}

function keep(context: Context, input: ImportClimate, staging: ClimateStaging, tally: ProblemTally, rows: number) {
  const { placeId, fileName, mapping } = input;
  const { count, ...facts } = staging.facts();
  if (count === 0) return refused(nothingRead(fileName, tally));
  return context.db.transaction((tx): Outcome<{ importId: number; report: ImportReport }> => {
    if (!findPlace(tx, placeId)) return refused(NO_PLACE);
    const held = staging.heldAlready(placeId);
    for (const { isSame, count: many, first } of held) {
      const named = first.map(({ row, atSeconds }) => ({ row, text: momentInIso(atSeconds) }));
      tally.addMany(isSame ? "held-same" : "held-different", many, named);
    }
    const kept = held.reduce((rest, { count: many }) => rest - many, count);
    const report: ImportReport = { rows, kept, problems: tally.list(), ...facts };
    if (report.kept === 0) return refused(allHeld(fileName));
    const at = context.now();
    const importId = insertClimateImport(tx, {
      placeId,
      fileName,
      mapping,
      report,
      readingCount: report.kept,
      userId: context.userId,
      createdAt: at,
    });
    staging.moveInto(placeId, importId);
    const detail = { fileName, readings: report.kept };
    recordEvent(tx, { at, userId: context.userId, verb: "climate imported", subject: "place", subjectId: placeId, detail });
    return done({ importId, report });
  });
}

const momentInIso = (seconds: number): string => `${new Date(seconds * 1000).toISOString().slice(0, 19)}Z`;

const isCsvFault = (error: unknown): boolean => error instanceof Error && "code" in error && String(error.code).startsWith("CSV_");

const NO_PLACE: Refusal = { about: "place", happened: "This place does not exist.", remedy: "Choose another from the list." };

const STOPPED: Refusal = {
  about: null,
  happened: "The import was stopped. None of its readings was kept.",
  remedy: "Start it again when you like.",
};

const unreadable = (fileName: string): Refusal => ({
  about: fileName,
  happened: "The file could not be cut into rows and columns to its end. Nothing of it was kept.",
  remedy: "Check what stands between its columns, or have the logger's program write it anew as CSV.",
});

function nothingRead(fileName: string, tally: ProblemTally): Refusal {
  const [most] = tally.list().toSorted((a, b) => b.count - a.count);
  const [row] = most?.named ?? [];
  const example = row ? ` Row ${row.row} reads: ${row.text}.` : "";
  return {
    about: fileName,
    happened: `Not one reading could be made out, so nothing was kept.${example}`,
    remedy: "Check the columns, the order of day and month, and the decimal sign.",
  };
}

const allHeld = (fileName: string): Refusal => ({
  about: fileName,
  happened: "Every reading in this file is in the place already, so nothing was added.",
  remedy: "Choose another file, or another place if the logger stood elsewhere.",
});
