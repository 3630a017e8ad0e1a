import { isNarrowed, type PrintFilter } from "#domain/print/print-filter.ts";

/** In the place of a list without prints: whether there are none at all, or none that fits what was asked. */
export const NoPrint = ({ filter, words }: { filter: PrintFilter; words: string }) => (
  <p class="card">
    {isNarrowed(filter) ? (
      words
    ) : (
      <>
        No print has been entered yet. <a href="/prints/new">Enter the first print</a>
      </>
    )}
  </p>
);
