/** The page that an address asks for, counted from 1; one that is no page, or lies beyond the last, becomes the nearest that is. */
export function pageAsked(asked: string | undefined, { perPage, total }: { perPage: number; total: number }): number {
  const last = Math.max(1, Math.ceil(total / perPage));
  const page = /^\d{1,7}$/.test(asked ?? "") ? Number(asked) : 1;
  return Math.min(Math.max(1, page), last);
}
