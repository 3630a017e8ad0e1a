/** A moment kept in UTC, said in the time of the machine that serves the page. */
export function Moment({ at }: { at: string }) {
  return <time datetime={at}>{new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short" }).format(new Date(at))}</time>;
}
