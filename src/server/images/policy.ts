import sharp, { type SharpOptions } from "sharp";
import type { OriginalKind } from "#domain/capture/capture.ts";

// Every module that decodes imports sharp from here, so that no decoder runs outside this policy.
// Only the loaders of the kinds we take in are open: others are code that strangers' files need not reach.
sharp.block({ operation: ["VipsForeignLoad"] });
sharp.unblock({
  operation: ["VipsForeignLoadJpeg", "VipsForeignLoadPng", "VipsForeignLoadWebp", "VipsForeignLoadHeif", "VipsForeignLoadTiff"],
});
// Each picture is read once: a cache only holds memory. Threads are bounded by the work queue, not by libvips.
sharp.cache(false);
sharp.concurrency(1);

export { sharp };

/** A sheet of 28 × 36 cm at 1200 pixels per inch fits; decoded at 16 bit it takes 1.8 GB. */
export const MOST_PIXELS = 300_000_000;

export const SECONDS_TO_DECODE = 120;

/** What decodes each kind of bytes. "aside" runs in a thread of its own that can be ended. */
export const DECODER_OF: Readonly<Record<OriginalKind, "sharp" | "aside">> = {
  jpeg: "sharp",
  png: "sharp",
  webp: "sharp",
  avif: "sharp",
  tiff: "sharp",
  heic: "aside",
  raw: "aside",
};

/** "error" refuses cut-off and damaged files; "warning" would also refuse sound files with an odd tag. */
export const READING: SharpOptions = { failOn: "error", limitInputPixels: MOST_PIXELS, unlimited: false, sequentialRead: true };
