import { readFile } from "node:fs/promises";
import type { Original } from "#domain/capture/capture.ts";
import type { CaptureWithOriginal } from "#drizzle/queries/captures.ts";
import { derivedOriginalPath, derivedPath, originalPath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import { turns } from "../work/turns.ts";
import { type DerivedName, deriveFromOriginal, derivePictures } from "./derive.ts";

/** A small picture of a capture, made when it is first asked for; null where the original cannot be decoded. */
export function derivedPicture(
  { folder }: Context,
  { id, region, original }: CaptureWithOriginal,
  name: DerivedName,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const { kind, sha256 } = original;
  return keptOrMade(
    (each) => derivedPath(folder, id, each),
    name,
    () => derivePictures(folder, { id, region }, { path: originalPath(folder, sha256), kind }),
  );
}

/** The same of a file that is no capture. */
export function derivedOriginal(
  { folder }: Context,
  { id, kind, sha256 }: Original,
  name: DerivedName,
): Promise<Uint8Array<ArrayBuffer> | null> {
  return keptOrMade(
    (each) => derivedOriginalPath(folder, id, each),
    name,
    () => deriveFromOriginal(folder, { id, path: originalPath(folder, sha256), kind }),
  );
}

async function keptOrMade(
  pathOf: (name: DerivedName) => string,
  name: DerivedName,
  make: () => Promise<void>,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const kept = await readFile(pathOf(name)).catch(() => null);
  if (kept) return new Uint8Array(kept);
  try {
    await makeInTurn(pathOf("view.jpg"), make);
    return new Uint8Array(await readFile(pathOf(name)));
  } catch (error) {
    console.error(error);
    // a picture that cannot be decoded has no view: its page says why it could not be measured
    return null;
  }
}

/** A page asks for dozens of pictures at once: decoding them together would fill the memory. */
export const inTurn = turns();

const underWay = new Map<string, Promise<void>>();

/** @param key what is made, so that two who ask for it at once wait for the same */
function makeInTurn(key: string, make: () => Promise<void>): Promise<void> {
  const known = underWay.get(key);
  if (known) return known;
  const making = inTurn(() => make().finally(() => underWay.delete(key)));
  underWay.set(key, making);
  return making;
}
