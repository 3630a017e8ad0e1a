/**
 * The way to the other pages of a list; nothing where there is only one page.
 * @param href the address of page n
 */
export function Paging(props: { page: number; perPage: number; total: number; href: (page: number) => string }) {
  const pages = Math.ceil(props.total / props.perPage);
  if (pages <= 1) return null;
  return (
    <nav class="paging" aria-label="Pages">
      {props.page > 1 ? (
        <a class="paging-step" rel="prev" href={props.href(props.page - 1)}>
          Previous
        </a>
      ) : null}
      <ol>
        {pagesAround(props.page, pages).map((page) =>
          page === null ? (
            <li class="paging-gap">…</li>
          ) : (
            <li>
              <a href={props.href(page)} aria-label={`Page ${page}`} aria-current={page === props.page ? "page" : undefined}>
                {page}
              </a>
            </li>
          ),
        )}
      </ol>
      {props.page < pages ? (
        <a class="paging-step" rel="next" href={props.href(props.page + 1)}>
          Next
        </a>
      ) : null}
    </nav>
  );
}

/** First, last, the page itself and one on either side; null stands for those left out between. */
export function pagesAround(page: number, pages: number): (number | null)[] {
  const near = Array.from({ length: pages }, (_, index) => index + 1).filter(
    (each) => each === 1 || each === pages || Math.abs(each - page) <= 1,
  );
  return near.flatMap((each, index) => {
    const before = near[index - 1];
    return before !== undefined && each - before > 1 ? [null, each] : [each];
  });
}
