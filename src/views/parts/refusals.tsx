import type { Refusal } from "#domain/outcome.ts";

/** What could not be done and what to do now, where no single field is to blame. */
export function Refusals({ refusals }: { refusals: readonly Refusal[] }) {
  if (refusals.length === 0) return null;
  return (
    <div class="notice notice-danger" role="alert">
      {refusals.map((refusal) => (
        <p>
          {refusal.happened} {refusal.remedy}
        </p>
      ))}
    </div>
  );
}
