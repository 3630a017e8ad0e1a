import { PassThrough, Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import type { ReadableStream as WebStream } from "node:stream/web";
import busboy from "busboy";

/** Files that one form may bring: each is streamed, so the bound is on patience, not on memory. */
export const MOST_FILES = 1000;

const LIMITS = { files: MOST_FILES, fields: 20, fieldSize: 2000, fieldNameSize: 100, parts: MOST_FILES + 40, headerPairs: 20 };

export type SentFile = {
  /** the field of the form that it came by */
  readonly field: string;
  readonly name: string;
  readonly stream: Readable;
};
export type Sent = { readonly fields: Readonly<Record<string, string>>; readonly tooManyFiles: boolean; readonly isWhole: boolean };

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
  let tooManyFiles = false;
  let inTurn = Promise.resolve();
  const faults: unknown[] = [];
  const parser = parserFor(request);
  if (!parser || !request.body) return { fields, tooManyFiles, isWhole: false };
  parser.on("field", (name, value) => {
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
  return { fields, tooManyFiles, isWhole };
}

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
