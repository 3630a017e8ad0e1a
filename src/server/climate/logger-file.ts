import { createReadStream } from "node:fs";
import { open } from "node:fs/promises";
import { Readable } from "node:stream";
import { parse } from "csv-parse";
import { type GuessedMapping, guessDelimiter, guessMapping } from "#domain/storage/climate/guess-mapping.ts";
import { DELIMITERS, type DelimiterName } from "#domain/storage/climate/logger-mapping.ts";

/** One row of a logger holds a few values: a longer one is no row of readings, and would only fill the memory. */
const MOST_ROW_BYTES = 64 * 1024;
/** Enough to find the readings under a logger's own heading. */
const LOOKED_AT_BYTES = 64 * 1024;
const LOOKED_AT_ROWS = 200;

export class NoLoggerFile extends Error {
  override name = "NoLoggerFile";
}

/**
 * The rows of a file, cut into cells, one after another; an empty row has one empty cell, so that they count as the file's lines do.
 * @param onBytes called with how many bytes are read so far
 */
export function loggerRows(
  file: string,
  delimiter: DelimiterName,
  options: { onBytes?: (bytes: number) => void; signal?: AbortSignal } = {},
): AsyncIterable<string[]> {
  const source = createReadStream(file, { highWaterMark: 256 * 1024, signal: options.signal });
  let bytes = 0;
  source.on("data", (chunk) => {
    bytes += chunk.length;
    options.onBytes?.(bytes);
  });
  const parser = cutter(delimiter);
  source.on("error", (error) => parser.destroy(error));
  return source.pipe(parser);
}

export type LookedAt = {
  readonly delimiter: DelimiterName;
  readonly rows: readonly (readonly string[])[];
  readonly guessed: GuessedMapping;
};

/**
 * The first rows of a file, and how it seems to be written.
 * @throws NoLoggerFile in words for the keeper where it is no text
 */
export async function lookAtLoggerFile(file: string, said: { delimiter?: DelimiterName } = {}): Promise<LookedAt> {
  const head = await headOf(file);
  if (head.length === 0) throw new NoLoggerFile("The file is empty.");
  const isUtf16 = head[0] === 0xff && head[1] === 0xfe;
  if (!isUtf16 && head.includes(0))
    throw new NoLoggerFile("This is no text file. Have the logger's program write CSV, and take that file.");
  const text = new TextDecoder(isUtf16 ? "utf-16le" : "utf-8").decode(head);
  const lines = text.split(/\r\n|\r|\n/).slice(0, LOOKED_AT_ROWS);
  const delimiter = said.delimiter ?? guessDelimiter(lines);
  const rows: string[][] = [];
  try {
    for await (const cells of Readable.from([head]).pipe(cutter(delimiter))) {
      rows.push(cells as string[]);
      if (rows.length >= LOOKED_AT_ROWS) break;
    }
  } catch {
    throw new NoLoggerFile("The file could not be cut into rows and columns. Have the logger's program write CSV, and take that file.");
  }
  // the last row may be cut off
  const whole = head.length === LOOKED_AT_BYTES && rows.length < LOOKED_AT_ROWS ? rows.slice(0, -1) : rows;
  return { delimiter, rows: whole, guessed: guessMapping(whole) };
}

const cutter = (delimiter: DelimiterName) =>
  parse({
    delimiter: DELIMITERS[delimiter],
    bom: true,
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: false,
    max_record_size: MOST_ROW_BYTES,
  });

async function headOf(file: string): Promise<Buffer> {
  const handle = await open(file);
  try {
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(LOOKED_AT_BYTES), 0, LOOKED_AT_BYTES, 0);
    return buffer.subarray(0, bytesRead);
  } finally {
    await handle.close();
  }
}
