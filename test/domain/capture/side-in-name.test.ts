import { expect, test } from "vitest";
import { sideInName } from "#domain/capture/side-in-name.ts";

test.each([
  ["1978.004.12_back.tif", "back"],
  ["1978.004.12-back.tif", "back"],
  ["1978.004.12 verso.tif", "back"],
  ["1978.004.12_v.tif", "back"],
  ["1978.004.12v.tif", "back"],
  ["1978-004-12 BACK.JPG", "back"],
  ["1978_004_12_Verso_2.jpg", "back"],
  ["1978.004.12_back2.jpg", "back"],
  ["1978.004.12 back (2).jpg", "back"],
  ["1978.004.12_2_back.jpg", "back"],
  ["1978.004.12_flatbed_back_600ppi.tif", "back"],
  ["1978.004.12 detail of the verso.tif", "back"],
  ["1978.004.12.verso", "back"],
  ["1978.004.12_front.tif", "front"],
  ["1978.004.12_recto.tif", "front"],
  ["1978.004.12_r.tif", "front"],
])("%s says that it shows the %s", (fileName, side) => {
  expect(sideInName(fileName, "1978.004.12")).toBe(side);
});

test.each([
  "1978.004.12.tif",
  "1978.004.12_a.tif",
  "1978.004.12_b.tif",
  "1978.004.12_f.tif",
  "1978.004.12_v2.tif",
  "1978.004.12_backup.tif",
  "1978.004.12_feedback.tif",
  "1978.004.12_versos.tif",
  "1978.004.12 back garden.tif",
  "1978.004.12 the front porch.tif",
  "1978.004.12_front-back.tif",
  "1978.004.12_rv.tif",
  "1978.004.12_constructor.tif",
])("%s says nothing of its side", (fileName) => {
  expect(sideInName(fileName, "1978.004.12")).toBeNull();
});

test("only what stands after the object number counts", () => {
  expect(sideInName("Back-7_front.tif", "Back-7")).toBe("front");
  expect(sideInName("Back-7.tif", "Back-7")).toBeNull();
  expect(sideInName("back_1978.004.12.tif", "1978.004.12")).toBeNull();
  expect(sideInName("Box_7-3_verso.png", "Box 7/3")).toBe("back");
});

test("signs of a pattern in an object number are signs and nothing more", () => {
  expect(sideInName("(a+)+$[1]_back.tif", "(a+)+$[1]")).toBe("back");
  expect(sideInName("aaaa_back.tif", "(a+)+")).toBeNull();
  expect(sideInName("Ada's #4, {b}^|_back.tif", "Ada's #4, {b}^|")).toBe("back");
});
