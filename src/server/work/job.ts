import type { OriginalKind, Region } from "#domain/capture/capture.ts";
import type { LaidSide } from "#domain/comparison/laid-side.ts";
import type { SheetInFrame } from "#domain/comparison/straightened-sheet.ts";
import type { Change } from "#domain/condition/change/change-between.ts";
import type { Qualification } from "#domain/condition/change/qualification.ts";
import type { Fingerprint } from "#domain/measure/likeness/fingerprint.ts";
import type { Sameness } from "#domain/measure/likeness/likeness.ts";
import type { LikelyView, Views } from "#domain/measure/likeness/likeness-views.ts";
import type { Outline, Reading } from "#domain/measure/reading.ts";
import type { SizeMm } from "#domain/measure/size-as-seen.ts";
import type { CollectionFolder } from "../collection-folder.ts";
import type { KnownContext } from "./measure-context.ts";
import type { Fault } from "./thread.ts";

type OriginalFile = { readonly path: string; readonly kind: OriginalKind };

/** A capture as it is held against another to tell what changed. */
export type CaptureToHold = {
  readonly id: number;
  readonly original: OriginalFile;
  readonly region: Region | null;
  readonly outline: Pick<Outline, "sheet" | "image" | "sides"> | null;
  readonly sizes: Pick<KnownContext, "sheetWidthMm" | "sheetHeightMm" | "imageWidthMm" | "imageHeightMm">;
  readonly qualification: Qualification;
};

/** A capture to be laid on one canvas with the others of its side. */
export type CaptureOfSide = Pick<CaptureToHold, "id" | "original" | "region" | "outline" | "sizes"> & {
  /** its part of the upright original, or the whole */
  readonly frame: Region;
};

/** One view of a capture that may show the same, and what print and side it is of. */
export type ViewToLookAt = Pick<LikelyView, "quarters" | "view" | "other"> & { readonly captureId: number; readonly of: string };

/** What a worker thread is told. It reads files and makes derived ones; it never writes a row. */
export type Job =
  | {
      readonly kind: "measure";
      readonly folder: CollectionFolder;
      readonly captureId: number;
      /** sizes of the whole file, upright */
      readonly original: OriginalFile & { readonly widthPx: number; readonly heightPx: number };
      readonly region: Region | null;
      readonly known: KnownContext;
    }
  | {
      readonly kind: "compare";
      readonly folder: CollectionFolder;
      readonly captures: readonly { readonly id: number; readonly original: OriginalFile; readonly region: Region | null }[];
    }
  | {
      readonly kind: "look";
      readonly folder: CollectionFolder;
      readonly captureId: number;
      readonly others: readonly ViewToLookAt[];
    }
  | { readonly kind: "change"; readonly folder: CollectionFolder; readonly older: CaptureToHold; readonly newer: CaptureToHold }
  | {
      readonly kind: "lay";
      readonly folder: CollectionFolder;
      /** the folder that is made, and where it stands until it is whole */
      readonly target: string;
      readonly making: string;
      readonly sheetMm: SizeMm | null;
      readonly captures: readonly CaptureOfSide[];
    }
  | {
      readonly kind: "straighten";
      readonly original: OriginalFile;
      /** the capture's part of the upright original, or the whole */
      readonly within: Region;
      readonly sheet: SheetInFrame;
    };

export type Measured = {
  readonly readings: readonly Reading[];
  readonly outlines: readonly Outline[];
  readonly fingerprints: Views<Fingerprint>;
  readonly durationMs: number;
};
export type Compared = readonly { readonly captureId: number; readonly readings: readonly Reading[] }[];

/** `unreadable` is the file's fault and final; `fault` is the program's or the machine's and tried once more. */
export type Answer =
  | { readonly measured: Measured }
  | { readonly compared: Compared }
  /** for each of the others, in their order; null where they cannot be laid on each other */
  | { readonly looked: readonly (Sameness | null)[] }
  | { readonly change: Change | { readonly refused: string } }
  | { readonly laid: LaidSide | { readonly refused: string } }
  /** PNG */
  | { readonly straightened: Uint8Array<ArrayBuffer> }
  | { readonly unreadable: string }
  | Fault;
