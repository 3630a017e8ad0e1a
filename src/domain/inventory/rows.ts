import type { Method } from "../capture/method.ts";
import type { Finding } from "../condition/finding.ts";
import type { Survey } from "../condition/survey.ts";
import type { Choice } from "../master/choice.ts";
import { imageSize, type PrintSize, sheetSize } from "../print/dimensions.ts";
import { findFormat } from "../print/format.ts";
import type { Print } from "../print/print.ts";
import { findProcess } from "../print/process.ts";
import type { RecaptureLine } from "../recapture/recapture-line.ts";
import type { InventoryMaster, InventoryRow, InventorySize, InventoryValue } from "./inventory-row.ts";

/** A capture as the inventory names it. */
export type InventoryFile = {
  readonly captureId: number;
  readonly fileName: string;
  readonly sha256: string;
  readonly method: Method | null;
};

export type InventoryCase = {
  readonly print: Print;
  readonly placePath: readonly string[];
  /** titles, the gravest first */
  readonly cautions: readonly string[];
  /** the last survey; null: there is none */
  readonly survey: Pick<Survey, "grade" | "surveyedOn"> | null;
  /** what that survey found */
  readonly findings: readonly Finding[];
  /** captures of both sides */
  readonly files: readonly InventoryFile[];
  /** what holds now, of both sides, in the order of the purposes */
  readonly choices: readonly Choice[];
  /** the lines of the recapture list that are about this print */
  readonly recapture: readonly RecaptureLine[];
};

/** Puts together what the inventory says of a print. */
export function inventoryRow({ print, placePath, cautions, survey, findings, files, choices, recapture }: InventoryCase): InventoryRow {
  return {
    print,
    processName: findProcess(print.processId)?.name ?? print.processId,
    formatName: print.formatId === null ? null : (findFormat(print.formatId)?.name ?? print.formatId),
    sheet: size(sheetSize(print)),
    image: size(imageSize(print)),
    placePath,
    cautions,
    condition: survey && {
      grade: survey.grade,
      surveyedOn: survey.surveyedOn,
      findings: findings.filter(({ severity }) => severity > 0),
    },
    captureCount: files.length,
    masters: choices.map((choice) => master(choice, files)),
    recaptureNeeded: recaptureNeeded({ files, choices, recapture }),
    recaptureReasons: recapture.flatMap(reasonsOf),
  };
}

function recaptureNeeded({ files, choices, recapture }: Pick<InventoryCase, "files" | "choices" | "recapture">): boolean | null {
  if (recapture.length > 0) return true;
  return files.length > 0 && choices.length === 0 ? null : false;
}

/** Why one side must be captured again; the front goes without saying. */
function reasonsOf({ side, why, reasons }: RecaptureLine): string[] {
  const before = side === "back" ? "Back: " : "";
  return why === "no-capture" ? [`${before}It was never captured.`] : reasons.map(({ sentence }) => `${before}${sentence}`);
}

const size = (found: PrintSize | null): InventorySize | null =>
  found && { widthMm: found.widthMm, heightMm: found.heightMm, basis: found.basis, source: found.source };

function master(choice: Choice, files: readonly InventoryFile[]): InventoryMaster {
  const file = files.find((each) => each.captureId === choice.captureId);
  return {
    side: choice.side,
    purposeKey: choice.purpose.key,
    purposeName: choice.purpose.name,
    file: file
      ? {
          fileName: file.fileName,
          sha256: file.sha256,
          method: file.method,
          samplingPpi: shownValue(choice, file.captureId, "samplingPpi"),
          sfr50CyPerMm: shownValue(choice, file.captureId, "sfr50CyPerMm"),
        }
      : null,
    decidedBy: choice.decidedBy,
    sentence: choice.sentence,
  };
}

/** As it was read when the choice was made; null when it was not shown. */
function shownValue(choice: Choice, captureId: number, measure: string): InventoryValue | null {
  const verdict = choice.explanation.verdicts.find((each) => each.captureId === captureId);
  const measured = verdict?.measures.find((each) => each.measure === measure);
  return measured === undefined || measured.value === null ? null : { value: measured.value, bound: measured.bound };
}
