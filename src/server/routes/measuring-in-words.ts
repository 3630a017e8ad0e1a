import type { WorkProgress } from "#drizzle/queries/work.ts";

/** What keeps a capture from being measured; null when nothing does. */
export function measuringInWords(measuring: { state: keyof WorkProgress; error: string | null } | undefined): string | null {
  if (measuring === undefined || measuring.state === "done") return null;
  if (measuring.state === "failed") return `It could not be measured. ${measuring.error ?? ""}`.trim();
  return WORDS[measuring.state];
}

const WORDS = {
  waiting: "It waits to be measured.",
  running: "It is being measured now.",
  cancelled: "Its measuring was cancelled. Resume it under Measuring.",
} as const;
