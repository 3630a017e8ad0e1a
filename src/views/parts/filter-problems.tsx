import type { Refusal } from "#domain/outcome.ts";
import { Notice } from "./notice.tsx";

/** What of a search or filter was not understood, each with what to write. */
export const FilterProblems = ({ problems }: { problems: readonly Pick<Refusal, "happened" | "remedy">[] }) => (
  <>
    {problems.map(({ happened, remedy }) => (
      <Notice level="warning">
        <p>
          {happened} {remedy}
        </p>
      </Notice>
    ))}
  </>
);
