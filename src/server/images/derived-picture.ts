import { readFile } from "node:fs/promises";
import type { CaptureWithOriginal } from "#drizzle/queries/captures.ts";
import { derivedPath, originalPath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import { type DerivedName, derivePictures } from "./derive.ts";

/** A small picture of a capture, made when it is first asked for; null where the original cannot be decoded. */
export async function derivedPicture(
  context: Context,
  capture: CaptureWithOriginal,
  name: DerivedName,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const path = derivedPath(context.folder, capture.id, name);
  const kept = await readFile(path).catch(() => null);
  if (kept) return new Uint8Array(kept);
  try {
    await makeInTurn(context, capture);
    return new Uint8Array(await readFile(path));
  } catch (error) {
    console.error(error);
    // a picture that cannot be decoded has no view: its page says why it could not be measured
    return null;
  }
}

let turn: Promise<unknown> = Promise.resolve();

/** A page asks for dozens of pictures at once: decoding them together would fill the memory. */
export function inTurn<T>(make: () => Promise<T>): Promise<T> {
  const making = turn.then(make);
  turn = making.catch(() => {});
  return making;
}

const underWay = new Map<string, Promise<void>>();

function makeInTurn({ folder }: Context, capture: CaptureWithOriginal): Promise<void> {
  const key = derivedPath(folder, capture.id, "view.jpg");
  const known = underWay.get(key);
  if (known) return known;
  const making = inTurn(() =>
    derivePictures(folder, capture, { path: originalPath(folder, capture.original.sha256), kind: capture.original.kind }).finally(() =>
      underWay.delete(key),
    ),
  );
  underWay.set(key, making);
  return making;
}
