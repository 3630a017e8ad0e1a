import type { Side } from "../capture/capture.ts";
import type { Print } from "../print/print.ts";
import type { Caution } from "./caution.ts";
import type { Change } from "./change/change-between.ts";
import type { ConditionNow } from "./condition-now.ts";
import type { FindingPhotograph } from "./finding-photograph.ts";
import type { MethodStop } from "./method-stop.ts";
import type { NextSurvey } from "./next-survey.ts";
import type { Survey } from "./survey.ts";

/** A side on the mm grid of its sheet, or why it cannot be shown. */
export type ReportSide = { readonly side: Side } & (
  | {
      readonly widthMm: number;
      readonly heightMm: number;
      readonly widthPx: number;
      readonly heightPx: number;
      readonly captureName: string;
    }
  | { readonly absent: string }
);

export type PicturedSide = Extract<ReportSide, { captureName: string }>;

/** The oldest and the newest dated capture of one side, and what holding them against each other told; null: nobody has asked yet. */
export type ReportChange = {
  readonly side: Side;
  /** YYYY-MM-DD */
  readonly from: string;
  readonly to: string;
  readonly olderId: number;
  readonly newerId: number;
  readonly held: Change | { readonly refused: string } | null;
};

/** Everything a condition report says of one print on a day. */
export type ConditionReport = ConditionNow & {
  readonly collectionName: string;
  readonly print: Print;
  readonly placePath: readonly string[];
  readonly at: string;
  readonly survey: Survey | null;
  readonly next: NextSurvey | null;
  readonly sides: readonly ReportSide[];
  /** of what stands, by finding */
  readonly photographs: ReadonlyMap<number, readonly FindingPhotograph[]>;
  /** photographs that the report has no room for */
  readonly leftOut: number;
  readonly cautions: readonly Caution[];
  readonly keptFrom: readonly MethodStop[];
  /** a side that has captures of one day alone, or of none, is not among them */
  readonly changes: readonly ReportChange[];
};
