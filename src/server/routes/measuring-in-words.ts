import type { WorkState } from "#drizzle/queries/work-progress.ts";
import type { NotMeasured } from "#views/parts/not-measured.tsx";

/** What keeps a capture from being measured; null when nothing does. */
export function measuringInWords(measuring: { state: WorkState; error: string | null } | undefined): NotMeasured | null {
  if (measuring === undefined || measuring.state === "done") return null;
  if (measuring.state === "failed") return { words: `It could not be measured. ${measuring.error ?? ""}`.trim(), isFailed: true };
  return { words: WORDS[measuring.state], isFailed: false };
}

const WORDS = {
  waiting: "It waits to be measured.",
  running: "It is being measured now.",
  cancelled: "Its measuring was cancelled. Resume it under Measuring.",
} as const;
