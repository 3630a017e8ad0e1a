import { measureInWords, valueInWords } from "../aim/measure-words.ts";
import { describeMeasure } from "../aim/target-measures.ts";
import type { Side } from "../capture/capture.ts";
import type { Method } from "../capture/method.ts";
import type { Choice } from "../master/choice.ts";
import type { Shortfall } from "../master/judgement.ts";
import { shortfallInWords } from "../master/requirements.ts";
import { byNumbers } from "../print/object-number.ts";
import { capital } from "../sentence.ts";
import { adviceOn, adviceOnFirstCapture, adviceOnMethod, type Circumstances } from "./advice.ts";
import type { RecaptureLine, RecaptureReason } from "./recapture-line.ts";

/** One side of a print, with what is known of its captures and the choice that holds for one purpose. */
export type RecaptureCase = Pick<
  RecaptureLine,
  "printId" | "objectNumber" | "title" | "processId" | "placePath" | "side" | "stillMeasuring"
> & {
  readonly purpose: { readonly key: string; readonly name: string };
  readonly captures: readonly {
    readonly captureId: number;
    readonly fileName: string;
    readonly method: Method | null;
    readonly setUpName: string | null;
  }[];
  readonly choice: Pick<Choice, "captureId" | "explanation"> | null;
  /** a person said that it is good enough as it is, and that still holds */
  readonly isExempt: boolean;
  readonly refusal: Circumstances["refusal"];
};

/**
 * Whether one side of a print must be captured again for a purpose, and what to change. Null where
 * its best capture meets the requirements, where a person said that it is good enough, where nothing
 * is known yet, and for a back that nobody captured: only fronts are missed.
 */
export function recaptureLine({ purpose, captures, choice, isExempt, refusal, ...of }: RecaptureCase): RecaptureLine | null {
  if (isExempt) return null;
  const line = { ...of, purposeKey: purpose.key, purposeName: purpose.name };
  if (captures.length === 0) {
    if (of.side === "back") return null;
    return { ...line, why: "no-capture", best: null, reasons: [], advice: adviceOnFirstCapture({ method: null, refusal }) };
  }
  if (!choice) return null;
  const bestId = choice.captureId ?? choice.explanation.bestId;
  const best = captures.find((capture) => capture.captureId === bestId);
  const shortfalls = choice.explanation.verdicts.find((verdict) => verdict.captureId === bestId)?.shortfalls ?? [];
  if (!best || shortfalls.length === 0) return null;
  const circumstances = { method: best.method, refusal };
  return {
    ...line,
    why: "falls-short",
    best: { captureId: best.captureId, fileName: best.fileName, method: best.method, setUpName: best.setUpName },
    reasons: reasonsOf(shortfalls, circumstances),
    advice: adviceOnMethod(circumstances),
  };
}

/** What is asked and not met, in words, each with what to change. */
export const reasonsOf = (shortfalls: readonly Shortfall[], circumstances: Circumstances): RecaptureReason[] =>
  shortfalls.map((shortfall) => reason(shortfall, circumstances));

/** In the order of the work: by place, then by number, front before back. */
export function inOrderOfWork<T extends Pick<RecaptureLine, "placePath" | "objectNumber" | "side">>(lines: readonly T[]): T[] {
  const byPlace = (line: T) => line.placePath.join("\n");
  return lines.toSorted(
    (a, b) =>
      byNumbers.compare(byPlace(a), byPlace(b)) ||
      byNumbers.compare(a.objectNumber, b.objectNumber) ||
      sideOrder(a.side) - sideOrder(b.side),
  );
}

function reason(shortfall: Shortfall, circumstances: Circumstances): RecaptureReason {
  return {
    ...shortfall,
    label: describeMeasure(shortfall.measure)?.label ?? measureInWords(shortfall.measure),
    unit: describeMeasure(shortfall.measure)?.unit ?? "",
    sentence: `${capital(shortfallInWords(shortfall))}${byHowMuch(shortfall)}.`,
    advice: adviceOn(shortfall, circumstances),
  };
}

/** What is missing, where a number says it: “, 82 ppi too few”. */
function byHowMuch({ measure, sense, required, value, notShown }: Shortfall): string {
  if (value === null || notShown !== null || measure === "lossless" || measure === "sidesSeen") return "";
  const missing = valueInWords(measure, Math.abs(required - value));
  if (missing === valueInWords(measure, 0)) return "";
  return `, ${missing} too ${sense === "at-least" ? "little" : "much"}`;
}

const sideOrder = (side: Side): number => (side === "front" ? 0 : 1);
