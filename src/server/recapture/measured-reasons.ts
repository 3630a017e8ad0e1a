import { measuredAdvice } from "#domain/recapture/measured-advice.ts";
import type { RecaptureReason } from "#domain/recapture/recapture-line.ts";
import type { Queryable } from "#drizzle/client.ts";
import { seenCapture } from "./seen-capture.ts";

/** Reasons with what the capture's own readings say in numbers before the general advice, each advice once. */
export function measuredReasons(db: Queryable, captureId: number | null, reasons: readonly RecaptureReason[]): RecaptureReason[] {
  const seen = captureId === null ? null : seenCapture(db, captureId);
  const said = new Set<string>();
  const once = (sentence: string) => !said.has(sentence) && said.add(sentence) !== undefined;
  return reasons.map((reason) => {
    const measured = seen ? measuredAdvice(reason, seen) : null;
    return { ...reason, advice: [...(measured ? [measured] : []), ...reason.advice].filter(({ sentence }) => once(sentence)) };
  });
}
