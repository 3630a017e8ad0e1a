import { parse } from "csv-parse/sync";
import { expect, test } from "vitest";
import { type InventoryCase, inventoryRow } from "#domain/inventory/rows.ts";
import type { Print } from "#domain/print/print.ts";
import { inventoryCsv } from "#server/inventory/inventory-csv.ts";
import { printValues } from "../../fixtures/prints.ts";

/** A print as it is kept, without captures. */
const kept = (known: Parameters<typeof printValues>[1] = {}): Print => ({
  id: 1,
  uuid: "0b0e7a5e-5b0e-4f2e-9d3e-0a1b2c3d4e5f",
  revision: 1,
  binnedAt: null,
  createdAt: "2026-11-25T10:00:00.000Z",
  updatedAt: "2026-11-25T11:00:00.000Z",
  ...printValues("1978.004.12", known),
});

const rowOf = (print: Print, found: Pick<InventoryCase, "survey" | "findings"> = { survey: null, findings: [] }) =>
  inventoryRow({ print, placePath: ["Study", "Box 4"], cautions: [], ...found, files: [], choices: [], recapture: [] });

/** Reads a table back with a reader that is not ours. */
const readBack = (csv: string): Record<string, string>[] => parse(csv, { columns: true });

test("RFC 4180: every record ends with CR LF, the header too, and no byte order mark stands in front", () => {
  const csv = inventoryCsv([rowOf(kept())]);
  expect(csv.endsWith("\r\n")).toBe(true);
  expect(csv.split("\r\n")).toHaveLength(3);
  expect(csv.startsWith("object_number,uuid,title,")).toBe(true);
});

test("RFC 4180: every row has as many cells as the header", () => {
  const table: string[][] = parse(inventoryCsv([rowOf(kept()), rowOf(kept({ title: "b" }))]));
  expect(new Set(table.map((cells) => cells.length)).size).toBe(1);
  expect(new Set(table[0]).size).toBe(table[0]?.length);
});

const AWKWARD = 'Ana, "the tall one"\nand\rBjørn\r\n; 写真\t🎞';

test("commas, quotes, every kind of line end, and letters of all scripts come back as they were", () => {
  const print = kept({
    title: AWKWARD,
    inscriptionBack: " leading and trailing ",
    notes: "one\nline more",
    people: ["Ana", "Bjørn, senior"],
  });
  const [row] = readBack(inventoryCsv([rowOf(print)]));
  expect(row).toMatchObject({
    title: AWKWARD,
    inscription_back: " leading and trailing ",
    notes: "one\nline more",
    people: "Ana | Bjørn, senior",
    place: "Study › Box 4",
  });
});

test("dates go out as the keeper wrote them, with earliest and latest beside them", () => {
  const [row] = readBack(inventoryCsv([rowOf(kept({ date: "197X", dateEarliest: "1970-01-01", dateLatest: "1979-12-31" }))]));
  expect(row).toMatchObject({ date_edtf: "197X", date_earliest: "1970-01-01", date_latest: "1979-12-31" });
});

test("a measured size wins over the nominal one, and each says which it is", () => {
  const formatId = "carte-de-visite";
  const [measured, nominal, unknown] = readBack(
    inventoryCsv([rowOf(kept({ formatId, sheetWidthMm: 88.5, sheetHeightMm: 107.5 })), rowOf(kept({ formatId })), rowOf(kept())]),
  );
  expect(measured).toMatchObject({
    sheet_width_mm: "88.5",
    sheet_height_mm: "107.5",
    sheet_size_basis: "measured",
    sheet_size_source: "measured by the keeper",
  });
  expect(unknown).toMatchObject({ sheet_width_mm: "", sheet_size_basis: "" });
  expect(nominal).toMatchObject({ sheet_size_basis: "nominal", format: "Carte de visite, card mount" });
  expect(nominal?.sheet_size_source).not.toBe("");
});

test("what is not known is an empty cell, never 0", () => {
  const [row] = readBack(inventoryCsv([rowOf(kept())]));
  for (const name of ["date_edtf", "value_amount", "sheet_width_mm", "preservation_master_file", "preservation_master_sampling_ppi"])
    expect(row?.[name], name).toBe("");
  expect(row?.captures).toBe("0");
  expect(row?.recapture_needed).toBe("no");
});

test("whether a print must be captured again is not said as long as its captures are not judged", () => {
  const file = { captureId: 1, fileName: "a.tif", sha256: "0".repeat(64), method: null };
  const waiting = inventoryRow({
    print: kept(),
    placePath: [],
    cautions: [],
    survey: null,
    findings: [],
    files: [file],
    choices: [],
    recapture: [],
  });
  const [row] = readBack(inventoryCsv([waiting]));
  expect(row?.recapture_needed).toBe("");
});

test("everything a record can hold of size has its column", () => {
  const print = kept({
    thicknessMm: 0.4,
    borderTopMm: 6,
    borderRightMm: 5,
    borderBottomMm: 24,
    borderLeftMm: 5,
    orientation: "portrait",
    dateGround: "on the back",
  });
  const [row] = readBack(inventoryCsv([rowOf(print)]));
  expect(row).toMatchObject({
    thickness_mm: "0.4",
    border_top_mm: "6",
    border_bottom_mm: "24",
    orientation: "portrait",
    date_ground: "on the back",
  });
});

test("by default nothing is changed for spreadsheets; asked for, formulas get an apostrophe", () => {
  const print = kept({ title: "=1+1", date: "-0500", maker: "@studio", credit: "+49", notes: "plain" });
  const [asIs] = readBack(inventoryCsv([rowOf(print)]));
  expect(asIs).toMatchObject({ title: "=1+1", date_edtf: "-0500", maker: "@studio", credit: "+49", notes: "plain" });
  const csv = inventoryCsv([rowOf(print)], { spreadsheetSafe: true });
  expect(csv.charCodeAt(0)).toBe(0xfeff);
  const [safe] = readBack(csv.slice(1));
  expect(safe).toMatchObject({ title: "'=1+1", date_edtf: "'-0500", maker: "'@studio", credit: "'+49", notes: "plain" });
});

// the first six: OWASP ASVS 5.0, 1.2.10; the rest: common practice, no source
test.each(["=", "+", "-", "@", "\t", "\0", "\r", "\n", "＝", "＋", "－", "＠"])("a cell that begins with %j is no formula", (first) => {
  const [safe] = readBack(inventoryCsv([rowOf(kept({ notes: `${first}1+1` }))], { spreadsheetSafe: true }).slice(1));
  expect(safe?.notes).toBe(`'${first}1+1`);
});

test("no formula stands after a semicolon or tab outside quotes, where a spreadsheet parts cells there", () => {
  const print = kept({ notes: "seen;=1+1", credit: "seen\t=1+1" });
  const csv = inventoryCsv([rowOf(print)], { spreadsheetSafe: true });
  expect(csv).toContain('"seen;=1+1"');
  expect(csv).toContain('"seen\t=1+1"');
});

test("an empty inventory is a header alone", () => {
  expect(inventoryCsv([]).split("\r\n")).toHaveLength(2);
});

test("the condition goes out with its grade, the day of the survey, what stands, and what of it is active", () => {
  const unchanged = { note: null, extent: null, regions: [], change: null, earlierFindingId: null };
  const findings = [
    { ...unchanged, id: 1, term: "mould", severity: 3, activity: "active", side: "back" },
    { ...unchanged, id: 2, term: "curl", severity: 1, activity: "stable", side: "front" },
    { ...unchanged, id: 3, term: "tape", severity: 0, activity: "active", side: "back", change: "gone" },
  ] as const;
  const [surveyed, never] = readBack(
    inventoryCsv([rowOf(kept(), { survey: { grade: "poor", surveyedOn: "2026-11-25" }, findings }), rowOf(kept())]),
  );
  expect(surveyed).toMatchObject({
    condition_grade: "poor",
    condition_surveyed_on: "2026-11-25",
    findings: "Mould, back: marked | Curl: slight",
    active_findings: "Mould, back: marked",
  });
  expect(never).toMatchObject({ condition_grade: "", condition_surveyed_on: "", findings: "", active_findings: "" });
});
