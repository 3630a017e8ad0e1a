import { PassThrough, Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import type { ReadableStream as WebStream } from "node:stream/web";
import busboy from "busboy";
import type { Refusal } from "#domain/outcome.ts";

/** Files that one form may bring: each is streamed, so the bound is on patience, not on memory. */
export const MOST_FILES = 1000;

/** More than any field may hold in letters, in whatever script: a letter takes up to four bytes. */
const MOST_FIELD_BYTES = 16_000;

const LIMITS = { files: MOST_FILES, fields: 20, fieldSize: MOST_FIELD_BYTES, fieldNameSize: 100, parts: MOST_FILES + 40, headerPairs: 20 };

export type SentFile = {
  /** the field of the form that it came by */
  readonly field: string;
  readonly name: string;
  readonly stream: Readable;
};
export type Sent = {
  readonly fields: Readonly<Record<string, string>>;
  /** names of fields of which only the beginning was read */
  readonly cutFields: readonly string[];
  readonly tooManyFiles: boolean;
  readonly isWhole: boolean;
};

/**
 * Reads a form with files as it streams in. Files are handed over one after another, in their
 * order, with the fields that stood before them; nothing is held in memory whole. What `take` has
 * not read of a file when it ends is passed over, so that the next one can come.
 */
export async function readUpload(
  request: Request,
  take: (file: SentFile, fields: Readonly<Record<string, string>>) => Promise<void>,
): Promise<Sent> {
  const fields: Record<string, string> = {};
  const cutFields: string[] = [];
  let tooManyFiles = false;
  let inTurn = Promise.resolve();
  const faults: unknown[] = [];
  const parser = parserFor(request);
  if (!parser || !request.body) return { fields, cutFields, tooManyFiles, isWhole: false };
  parser.on("field", (name, value, { valueTruncated }) => {
    if (valueTruncated) cutFields.push(name);
    fields[name] = value.replaceAll("\r\n", "\n");
  });
  parser.on("filesLimit", () => {
    tooManyFiles = true;
  });
  parser.on("file", (field, stream, { filename }) => {
    if (filename === undefined || filename === "") return void stream.resume();
    const { handed, passOver } = handOver(stream);
    inTurn = inTurn
      .then(() => take({ field, name: filename, stream: handed }, fields))
      .catch((fault) => void faults.push(fault))
      .then(passOver);
  });
  const isWhole = await pipeline(Readable.fromWeb(request.body as WebStream<Uint8Array>), parser).then(
    () => true,
    () => false,
  );
  await inTurn;
  if (faults.length > 0) throw faults[0];
  return { fields, cutFields, tooManyFiles, isWhole };
}

/** What is told of fields that were not read to their end. */
export const refusalsOfCut = ({ cutFields }: Sent): Refusal[] =>
  cutFields.map((about) => ({
    about,
    happened: "This is longer than a form takes, and only its beginning was read.",
    remedy: "Shorten it.",
  }));

/** One file of a lot that met a fault of the program's own: it is told, and the next one comes. */
export const FAULT_WITH_FILE: Refusal = {
  about: null,
  happened: "The program met a fault of its own with this file, and nothing of it was kept.",
  remedy: "Try it once more by itself; the terminal where the program runs shows what to report.",
};

/**
 * A file's stream that may be left half read or destroyed: the form's own stream must run to its end whatever happens,
 * or the form never ends.
 */
function handOver(stream: Readable): { handed: Readable; passOver: () => void } {
  const handed = new PassThrough();
  handed.on("error", () => {});
  // a form that breaks off ends this file with an error, even while it still waits for its turn
  stream.on("error", (error) => handed.destroy(error));
  stream.pipe(handed);
  return {
    handed,
    passOver: () => {
      stream.unpipe(handed);
      stream.resume();
    },
  };
}

/** Null where the body is no form with files. */
function parserFor(request: Request): busboy.Busboy | null {
  try {
    return busboy({ headers: { "content-type": request.headers.get("content-type") ?? "" }, limits: LIMITS, defParamCharset: "utf8" });
  } catch {
    return null;
  }
}
