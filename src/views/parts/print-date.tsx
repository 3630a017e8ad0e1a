import { dateInWords } from "#domain/print/date.ts";

/** A print's date as people say it; the text as written stands behind it. */
export const PrintDate = ({ date }: { date: string | null }) =>
  date === null ? <span class="soft">undated</span> : <span title={date}>{dateInWords(date)}</span>;
