import type { Line } from "./handwriting.ts";
import type { LookName } from "./looks.ts";
import type { Triple } from "./raster.ts";

/** Something time or hands left on a sheet; places in mm from its top left. */
export type Mark =
  | { kind: "scratch"; fromMm: readonly [number, number]; toMm: readonly [number, number]; widthMm: number }
  | { kind: "crease"; fromMm: readonly [number, number]; toMm: readonly [number, number]; widthMm: number }
  /** growing: not there at the first capture, and of its radius at the later one */
  | { kind: "stain"; atMm: readonly [number, number]; radiusMm: number; density: Triple; growing?: true }
  | { kind: "foxing"; count: number; density: number };

export type Box = { readonly leftMm: number; readonly topMm: number; readonly widthMm: number; readonly heightMm: number };

/** Everything needed to draw one sheet, front and back. */
export type PrintDrawing = {
  readonly picture: string;
  /** part of the picture that was printed, in parts of its width and height */
  readonly crop?: { readonly left: number; readonly top: number; readonly width: number; readonly height: number };
  readonly look: LookName;
  readonly sheetWidthMm: number;
  readonly sheetHeightMm: number;
  readonly image: Box;
  /** 0 matte, 1 mirror-like */
  readonly gloss: number;
  readonly cornerMm?: number;
  readonly deckle?: boolean;
  /** density lost by red-, green- and blue-absorbing dye: 0.1 is a tenth of it gone */
  readonly fading?: Triple;
  /** yellow density added everywhere by age */
  readonly yellowing?: number;
  readonly marks?: readonly Mark[];
  readonly writing?: readonly Line[];
  /** reflectance of ink or pencil on the front */
  readonly ink?: Triple;
  readonly back?: {
    readonly paper: Triple;
    readonly ink: Triple;
    readonly lines: readonly Line[];
    readonly pattern?: "diagonal" | "frame";
  };
};

/** How far a sheet has aged beyond its drawing: 0 at the first capture, 1 some years later. */
export type Ageing = number;
