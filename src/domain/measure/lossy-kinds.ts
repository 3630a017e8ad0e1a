/** Kinds of file whose usual compression changes codes: it spreads a stuck value over its neighbours and fills gaps between levels. */
export const LOSSY_KINDS: ReadonlySet<string> = new Set(["jpeg", "webp", "avif", "heic"]);
