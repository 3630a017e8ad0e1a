import { expect, test } from "vitest";
import { Paging, pagesAround } from "#views/parts/paging.tsx";

test.each([
  [1, 2, [1, 2]],
  [1, 4, [1, 2, null, 4]],
  [3, 5, [1, 2, 3, 4, 5]],
  [5, 9, [1, null, 4, 5, 6, null, 9]],
  [9, 9, [1, null, 8, 9]],
])("page %i of %i offers its neighbours and both ends", (page, pages, offered) => {
  expect(pagesAround(page, pages)).toEqual(offered);
});

test("one page needs no paging", () => {
  expect(Paging({ page: 1, perPage: 50, total: 50, href: String })).toBeNull();
  expect(String(Paging({ page: 1, perPage: 50, total: 51, href: (page) => `/prints?page=${page}` }))).toContain('href="/prints?page=2"');
});
