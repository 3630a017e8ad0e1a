import { z } from "zod";

/** A photograph that shows one thing found on a print. It is no capture of the print: never measured, never a master. */
export type FindingPhotograph = {
  readonly id: number;
  readonly findingId: number;
  readonly originalId: number;
  readonly caption: string | null;
  /** the file's own name */
  readonly name: string;
  readonly widthPx: number;
  readonly heightPx: number;
  /** as the camera's clock says; null where the file does not */
  readonly takenAt: string | null;
  readonly addedAt: string;
  readonly who: string | null;
};

/** More than this show no more of one finding. */
export const MOST_PHOTOGRAPHS = 20;

/** A photograph of a detail stays far below it; a scan of a whole print is a capture. */
export const MOST_PHOTOGRAPH_BYTES = 200_000_000;

export const captionInput = z
  .string()
  .trim()
  .max(500, "Say it in at most 500 letters.")
  .transform((caption) => (caption === "" ? null : caption));
