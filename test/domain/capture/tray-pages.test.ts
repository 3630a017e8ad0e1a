import { expect, test } from "vitest";
import { trayPages } from "#domain/capture/tray-pages.ts";

/** Captures written "number:name", or ":name" without a number. */
const paged = (captures: string[], most: number) =>
  trayPages(captures, (capture) => capture.split(":")[0] || null, most).map((page) =>
    page.map(({ number, captures: lot }) => `${number ?? "-"}=${lot.map((capture) => capture.split(":")[1]).join("")}`),
  );

test("captures of one number stand together where the first of them stands, and those without a number each alone", () => {
  expect(paged(["7:a", ":b", "8:c", "7:d", ":e"], 9)).toEqual([["7=ad", "-=b", "8=c", "-=e"]]);
});

test("a page takes no more than it may hold, and a lot that does not fit goes onto the next whole", () => {
  expect(paged(["1:a", "1:b", "2:c", "2:d", "3:e"], 3)).toEqual([["1=ab"], ["2=cd", "3=e"]]);
});

test("a lot larger than a page is divided", () => {
  expect(paged(["1:a", "1:b", "1:c", "1:d", "1:e"], 2)).toEqual([["1=ab"], ["1=cd"], ["1=e"]]);
});

test("an empty tray has no page", () => {
  expect(paged([], 3)).toEqual([]);
});
