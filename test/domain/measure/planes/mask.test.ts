import { expect, test } from "vitest";
import { boxesOf, grown, opened, withoutSpecks } from "#domain/measure/planes/mask.ts";

const maskOf = (...rows: string[]) => ({
  mask: Uint8Array.from(rows.join(""), (sign) => (sign === "#" ? 1 : 0)),
  columns: rows[0]?.length ?? 0,
  rows: rows.length,
});
const drawn = (mask: Uint8Array, columns: number) =>
  Array.from({ length: mask.length / columns }, (_, y) =>
    [...mask.subarray(y * columns, (y + 1) * columns)].map((value) => (value ? "#" : ".")).join(""),
  );

test("opening keeps what a 3 × 3 square fits into and drops lines and single places", () => {
  const { mask, columns, rows } = maskOf(".......#", ".###....", ".####...", ".###...#", "........", "########");
  expect(drawn(opened(mask, columns, rows), columns)).toEqual(["........", ".###....", ".###....", ".###....", "........", "........"]);
});

test("growing adds a rim, also at the corners, and stops at the frame", () => {
  const { mask, columns, rows } = maskOf("#....", ".....", ".....", "....#");
  expect(drawn(grown(mask, columns, rows, 1), columns)).toEqual(["##...", "##...", "...##", "...##"]);
});

test("specks below the limit go, patches that touch at a corner count as one", () => {
  const { mask, columns, rows } = maskOf("#..##", ".#...", ".....", "...#.");
  expect(drawn(withoutSpecks(mask, columns, rows, 2), columns)).toEqual(["#..##", ".#...", ".....", "....."]);
});

test("boxes come largest patch first, in shares and in mm", () => {
  const { mask, columns, rows } = maskOf("#...", "....", "..##", "..##");
  expect(boxesOf(mask, columns, rows, { widthMm: 80, heightMm: 60 })).toEqual([
    { left: 0.5, top: 0.5, width: 0.5, height: 0.5, share: 0.25, mm: { left: 40, top: 30, width: 40, height: 30 } },
    { left: 0, top: 0, width: 0.25, height: 0.25, share: 1 / 16, mm: { left: 0, top: 0, width: 20, height: 15 } },
  ]);
  expect(boxesOf(mask, columns, rows, null)[0]?.mm).toBeNull();
  expect(boxesOf(new Uint8Array(4), 2, 2, null)).toEqual([]);
});
