import type { FrameSize } from "../measure/marked-area.ts";
import type { Quad } from "../measure/picture.ts";
import type { Method } from "./method.ts";

export const SIDES = ["front", "back"] as const;
export type Side = (typeof SIDES)[number];

const ORIGINAL_KINDS = ["jpeg", "png", "webp", "avif", "tiff", "heic", "raw"] as const;
export type OriginalKind = (typeof ORIGINAL_KINDS)[number];

/** A part of an original, in its upright pixels. */
export type Region = { readonly left: number; readonly top: number; readonly width: number; readonly height: number };

/** What the file says of how it was made; null where it does not say. */
export type CaptureSettings = {
  readonly capturedAt: string | null;
  readonly deviceMake: string | null;
  readonly deviceModel: string | null;
  readonly lens: string | null;
  readonly software: string | null;
  readonly exposureTimeS: number | null;
  readonly fNumber: number | null;
  readonly isoSpeed: number | null;
  readonly focalLengthMm: number | null;
  readonly claimedPpiX: number | null;
  readonly claimedPpiY: number | null;
};

/** One file, kept as it came. Sizes are upright, after the EXIF orientation. */
export type Original = CaptureSettings & {
  readonly id: number;
  readonly uuid: string;
  readonly sha256: string;
  readonly bytes: number;
  readonly kind: OriginalKind;
  readonly originalName: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly bitsPerChannel: number;
  readonly channels: number;
  readonly colourSpace: string;
  readonly profileName: string | null;
  readonly metadataState: "read" | "none" | "unreadable";
  readonly metadataNote: string | null;
  readonly createdAt: string;
};

/** One image of one side of one print. Without a print it waits in the tray. */
export type Capture = {
  readonly id: number;
  readonly uuid: string;
  readonly originalId: number;
  readonly printId: number | null;
  readonly side: Side;
  readonly method: Method | null;
  readonly methodBasis: "said" | "guessed" | null;
  readonly setUpId: number | null;
  readonly region: Region | null;
  /** YYYY-MM-DD on which it was made, as a person said; null where the file says or nobody knows */
  readonly saidDay: string | null;
  /** the sheet's corners as a person set them, in the capture's own pixels; null where measuring finds them */
  readonly saidOutline: Quad | null;
  readonly divided: boolean;
  /** since when it counts nowhere, because a person put it away; null while it counts */
  readonly putAwayAt: string | null;
  readonly note: string | null;
  readonly createdAt: string;
};

/** Whether it counts as a capture: a bed that was divided has its parts for that, and one that was put away counts nowhere. */
export const stands = ({ divided, putAwayAt }: Pick<Capture, "divided" | "putAwayAt">): boolean => !divided && putAwayAt === null;

/** A capture's own pixels: those of its part where it is one of a bed. */
export const frameOf = ({ original, region }: { original: FrameSize; region: Region | null }): FrameSize => ({
  widthPx: region?.width ?? original.widthPx,
  heightPx: region?.height ?? original.heightPx,
});
