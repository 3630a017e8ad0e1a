import type { Side } from "../capture/capture.ts";
import type { Method } from "../capture/method.ts";
import type { Finding } from "../condition/finding.ts";
import type { Grade } from "../condition/grade.ts";
import type { Print } from "../print/print.ts";

/** The file chosen for one purpose, of one side of a print. */
export type InventoryMaster = {
  readonly side: Side;
  readonly purposeKey: string;
  readonly purposeName: string;
  /** null: no capture meets what the purpose asks */
  readonly file: {
    readonly fileName: string;
    readonly sha256: string;
    readonly method: Method | null;
    readonly samplingPpi: InventoryValue | null;
    readonly sfr50CyPerMm: InventoryValue | null;
  } | null;
  readonly decidedBy: "rule" | "person";
  readonly sentence: string;
};

/** A value as it was read when the choice was made; the true one may be at least (lower) or at most (upper) this. */
export type InventoryValue = { readonly value: number; readonly bound: "lower" | "upper" | null };

/** One print as the inventory lists it: its record, where it is, how it is, and which files stand for it. */
export type InventoryRow = {
  readonly print: Print;
  readonly processName: string;
  readonly formatName: string | null;
  readonly sheet: InventorySize | null;
  readonly image: InventorySize | null;
  readonly placePath: readonly string[];
  /** titles of the cautions that hold today, the gravest first */
  readonly cautions: readonly string[];
  /** what the last survey says; null: nobody has looked at it yet */
  readonly condition: InventoryCondition | null;
  readonly captureCount: number;
  /** in the order of the purposes; a purpose nothing was chosen for yet is left out */
  readonly masters: readonly InventoryMaster[];
  /** whether it must be captured again for the preservation master; null: not known yet, its captures are not judged */
  readonly recaptureNeeded: boolean | null;
  /** why; empty when it need not */
  readonly recaptureReasons: readonly string[];
};

export type InventoryCondition = {
  readonly grade: Grade | null;
  readonly surveyedOn: string;
  /** what stands, gone and looked-for left out */
  readonly findings: readonly Pick<Finding, "term" | "severity" | "side" | "activity">[];
};

export type InventorySize = {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly basis: "measured" | "nominal";
  readonly source: string;
};
