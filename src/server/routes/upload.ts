import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import type { ReadableStream as WebStream } from "node:stream/web";
import busboy from "busboy";

/** Files that one form may bring: each is streamed, so the bound is on patience, not on memory. */
export const MOST_FILES = 1000;

const LIMITS = { files: MOST_FILES, fields: 20, fieldSize: 2000, fieldNameSize: 100, parts: MOST_FILES + 40, headerPairs: 20 };

export type SentFile = { readonly name: string; readonly stream: Readable };
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
  const parser = parserFor(request);
  if (!parser || !request.body) return { fields, tooManyFiles, isWhole: false };
  parser.on("field", (name, value) => {
    fields[name] = value.replaceAll("\r\n", "\n");
  });
  parser.on("filesLimit", () => {
    tooManyFiles = true;
  });
  parser.on("file", (_field, stream, { filename }) => {
    // a form that breaks off ends this file with an error, even while it still waits for its turn
    stream.on("error", () => {});
    const isEmptyInput = filename === undefined || filename === "";
    if (!isEmptyInput) inTurn = inTurn.then(() => take({ name: filename, stream }, fields)).then(() => void stream.resume());
    else stream.resume();
  });
  const isWhole = await pipeline(Readable.fromWeb(request.body as WebStream<Uint8Array>), parser).then(
    () => true,
    () => false,
  );
  await inTurn;
  return { fields, tooManyFiles, isWhole };
}

/** Null where the body is no form with files. */
function parserFor(request: Request): busboy.Busboy | null {
  try {
    return busboy({ headers: { "content-type": request.headers.get("content-type") ?? "" }, limits: LIMITS, defParamCharset: "utf8" });
  } catch {
    return null;
  }
}
