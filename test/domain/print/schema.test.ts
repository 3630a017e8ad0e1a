import { expect, test } from "vitest";
import { RIGHTS } from "#domain/print/rights.ts";
import { printInput } from "#domain/print/schema.ts";

const read = (fields: Record<string, string>) => printInput.safeParse({ objectNumber: "1978.004.12", ...fields });
const values = (fields: Record<string, string>) => printInput.parse({ objectNumber: "1978.004.12", ...fields });
const refusals = (fields: Record<string, string>): Record<string, string> =>
  Object.fromEntries((read(fields).error?.issues ?? []).map((issue) => [String(issue.path[0]), issue.message]));

test("a number is enough, and every other field is then absent", () => {
  const print = values({});
  expect(print).toMatchObject({ title: "", processId: "not-known", people: [], subjects: [], valueAmount: null, date: null });
  const { objectNumber, objectNumberSort, title, processId, people, subjects, ...rest } = print;
  expect(new Set(Object.values(rest))).toEqual(new Set([null]));
  expect(Object.keys(rest)).toHaveLength(28);
});

test("a whole record is read from texts", () => {
  expect(
    values({
      title: "  At the weir \n summer ",
      date: "1978~",
      processId: "integral-instant-colour",
      formatId: "integral-large-square",
      sheetWidthMm: "88,5",
      sheetHeightMm: "107.5 mm",
      borderTopMm: "0",
      thicknessMm: "0.3",
      orientation: "portrait",
      people: "Ada Lindqvist\r\n\r\n Bo  Lindqvist \nAda Lindqvist",
      inscriptionBack: "Juni 78\r\nam Wehr",
      rightsUri: "http://rightsstatements.org/vocab/InC/1.0/",
      valueAmount: "249,90",
      valueCurrency: "eur",
      significance: "4",
      placeId: "7",
      processedOn: "1978-06-21",
    }),
  ).toMatchObject({
    title: "At the weir summer",
    date: "1978~",
    dateEarliest: "1978-01-01",
    dateLatest: "1978-12-31",
    sheetWidthMm: 88.5,
    sheetHeightMm: 107.5,
    borderTopMm: 0,
    thicknessMm: 0.3,
    people: ["Ada Lindqvist", "Bo Lindqvist"],
    inscriptionBack: "Juni 78\nam Wehr",
    valueAmount: 249.9,
    valueCurrency: "EUR",
    significance: 4,
    placeId: 7,
    processedOn: "1978-06-21",
  });
});

test("the key for sorting belongs to the number", () => {
  expect(values({ objectNumber: "A.12" }).objectNumberSort > values({ objectNumber: "a.9" }).objectNumberSort).toBe(true);
});

test("each field that cannot be read is refused by its name, with what to write", () => {
  const refused = refusals({
    objectNumber: "",
    date: "c. 1978",
    processId: "magic",
    formatId: "magic",
    sheetWidthMm: "8.8 cm",
    imageHeightMm: "-3",
    borderLeftMm: "1e3",
    thicknessMm: "0",
    orientation: "round",
    rightsUri: "https://rightsstatements.org/vocab/InC/1.0/",
    valueAmount: "many",
    valueCurrency: "XQQ",
    significance: "6",
    placeId: "attic",
    processedOn: "c. 1976",
    title: "x".repeat(501),
    people: Array.from({ length: 201 }, (_, place) => `Person ${place}`).join("\n"),
  });
  expect(Object.keys(refused).sort()).toEqual(
    [
      "borderLeftMm",
      "date",
      "formatId",
      "imageHeightMm",
      "objectNumber",
      "orientation",
      "people",
      "placeId",
      "processId",
      "processedOn",
      "rightsUri",
      "sheetWidthMm",
      "significance",
      "thicknessMm",
      "title",
      "valueAmount",
      "valueCurrency",
    ].sort(),
  );
  expect(refused.date).toMatch(/Write 1978~ if that is what you mean/);
  expect(refused.processedOn).toMatch(/Write 1976~ if that is what you mean/);
  expect(refused.sheetWidthMm).toMatch(/in millimetres, from 1 to 3000, such as 88\.5/);
});

test("a date may be written in the words in which it is shown, and in no other words", () => {
  expect(values({ date: "About  1978" })).toMatchObject({ date: "1978~", dateEarliest: values({ date: "1978~" }).dateEarliest });
  expect(values({ date: "21 June 1978" }).date).toBe("1978-06-21");
  expect(values({ processedOn: "perhaps 1976" }).processedOn).toBe("1976?");
  expect(refusals({ date: "late 1860s" }).date).toMatch(/if that is what you mean/);
});

test("a date that says nothing is told to be left empty, an unreadable one how to write", () => {
  expect(refusals({ date: "undated" }).date).toBe("That says there is no date. Leave the field empty.");
  expect(refusals({ date: "long ago" }).date).toMatch(/1978~ for about 1978/);
});

test("sizes that cannot all be true are refused, those that a ruler may give are not", () => {
  expect(refusals({ sheetWidthMm: "88.5", sheetHeightMm: "107.5", imageWidthMm: "100", imageHeightMm: "77" }).imageWidthMm).toMatch(
    /more than the sheet/,
  );
  expect(refusals({ sheetHeightMm: "107.5", imageHeightMm: "90", borderTopMm: "10", borderBottomMm: "25" }).imageHeightMm).toMatch(
    /125 mm/,
  );
  expect(refusals({ sheetWidthMm: "20", sheetHeightMm: "90", borderLeftMm: "15", borderRightMm: "15" }).imageWidthMm).toMatch(/30 mm/);
  const whole = { sheetWidthMm: "88.5", sheetHeightMm: "107.5", imageWidthMm: "79.5", imageHeightMm: "77" };
  expect(read({ ...whole, borderLeftMm: "5", borderRightMm: "5" }).success).toBe(true);
  expect(read({ ...whole, imageWidthMm: "60" }).success).toBe(true);
});

test("a value needs its currency and a currency its value", () => {
  expect(Object.keys(refusals({ valueAmount: "3" }))).toEqual(["valueCurrency"]);
  expect(Object.keys(refusals({ valueCurrency: "EUR" }))).toEqual(["valueAmount"]);
  expect(values({ valueAmount: "0", valueCurrency: "SEK" })).toMatchObject({ valueAmount: 0, valueCurrency: "SEK" });
});

test("processing takes a date as exact or as rough as it is known, and keeps it as written", () => {
  for (const processedOn of ["1978-06-21", "1978", "1976~", "197X", "1976/1979", "[..1980]", "2000-02-29"])
    expect(values({ processedOn }).processedOn).toBe(processedOn);
  for (const processedOn of ["1978-02-29", "1978-6-1", "the seventies?!", "unknown"])
    expect(refusals({ processedOn })).toHaveProperty("processedOn");
  expect(refusals({ processedOn: "the 1970s" }).processedOn).toMatch(/Write 197X if/);
  expect(refusals({ processedOn: "June 12, 1978" }).processedOn).toMatch(/Write 1978-06-12 if/);
});

test("accents are kept in one form, however they were typed", () => {
  expect(values({ title: "Cafe\u0301" }).title).toBe("Café");
});

// rightsstatements.org data model: twelve statements at http://rightsstatements.org/vocab/{id}/1.0/
test("the twelve rights statements stand under their published addresses", () => {
  expect(RIGHTS.map(({ uri }) => uri).sort()).toEqual(
    ["CNE", "InC", "InC-EDU", "InC-NC", "InC-OW-EU", "InC-RUU", "NKC", "NoC-CR", "NoC-NC", "NoC-OKLR", "NoC-US", "UND"]
      .map((id) => `http://rightsstatements.org/vocab/${id}/1.0/`)
      .sort(),
  );
  expect(new Set(RIGHTS.map(({ label }) => label)).size).toBe(12);
  for (const { uri } of RIGHTS) expect(values({ rightsUri: uri }).rightsUri).toBe(uri);
});

test("one side of a sheet or an image alone is asked to be completed, at the field that is empty", () => {
  expect(refusals({ sheetWidthMm: "88.5" })).toEqual({ sheetHeightMm: expect.stringMatching(/Measure the height of the sheet too/) });
  expect(refusals({ imageHeightMm: "77" })).toEqual({ imageWidthMm: expect.stringMatching(/Measure the width of the image too/) });
});

test("control characters are left out of what is typed, but for line ends and tabs", () => {
  const print = values({ title: "The\u001b[31m mill\u0000", notes: "one\u0085two\tthree\u007f\r\nfour" });
  expect(print.title).toBe("The[31m mill");
  expect(print.notes).toBe("one\ntwo\tthree\nfour");
});
