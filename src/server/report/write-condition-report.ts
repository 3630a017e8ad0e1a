import type { LifeNow } from "#domain/condition/condition-now.ts";
import type { ConditionReport, PicturedSide } from "#domain/condition/condition-report.ts";
import { termInWords } from "#domain/condition/finding-in-words.ts";
import type { FindingPhotograph } from "#domain/condition/finding-photograph.ts";
import { dateInWords } from "#domain/print/date.ts";
import { LEVEL_WORDS } from "#views/parts/cautions.tsx";
import * as words from "#views/parts/condition-report-words.ts";
import { notWith } from "#views/parts/method-stop.tsx";
import { drawSide, within } from "./draw-side.ts";
import type { ReportPictures } from "./report-pictures.ts";
import { LEFT_PT, ReportSheet, TEXT_WIDTH_PT } from "./report-sheet.ts";

/** Writes a condition report as PDF: how the print looks, what it is, what was found, what to mind, and room for signatures. */
export async function writeConditionReport(report: ConditionReport, pictures: ReportPictures): Promise<Buffer> {
  const { print, collectionName, at } = report;
  const title = `Condition report: ${print.objectNumber} ${print.title}`.trim();
  const sheet = new ReportSheet({ title, author: collectionName, at: new Date(at) });
  writeHead(sheet, report);
  writeSides(sheet, report, pictures);
  writeRecord(sheet, report);
  writeCondition(sheet, report);
  writeFindings(sheet, report, pictures);
  writeCautions(sheet, report);
  writeChanges(sheet, report);
  writeSignatures(sheet);
  writeMissingLetters(sheet);
  return sheet.finish(`${print.objectNumber}, condition report of ${dateInWords(at.slice(0, 10))}`);
}

function writeHead(sheet: ReportSheet, report: ConditionReport): void {
  sheet.section();
  sheet.heading(1, words.reportTitle(report));
  sheet.paragraph(words.reportLine(report), { soft: true, size: 10.5 });
  const first = words.firstToMind(report);
  if (first) sheet.paragraph(first, { bold: true });
}

const GAP_PT = 14;
const HALF_PT = (TEXT_WIDTH_PT - GAP_PT) / 2;
const MOST_SIDE_PT = 290;

/** They come first, so that they stand on the first page whatever the record's length. */
function writeSides(sheet: ReportSheet, { sides, standing }: ConditionReport, pictures: ReportPictures): void {
  const shown = sides.flatMap((side) => {
    const jpeg = pictures.sides.get(side.side);
    return "absent" in side || !jpeg ? [] : [{ side, jpeg }];
  });
  const most = { widthPt: shown.length === 1 ? TEXT_WIDTH_PT * 0.62 : HALF_PT, heightPt: MOST_SIDE_PT };
  const placed = shown.map(({ side, jpeg }, index) => ({
    side,
    jpeg,
    marks: words.marksOn(side.side, standing),
    box: { ...within({ width: side.widthMm, height: side.heightMm }, most), leftPt: LEFT_PT + index * (HALF_PT + GAP_PT) },
  }));
  const height = Math.max(0, ...placed.map(({ box }) => box.heightPt)) + 8;
  sheet.section();
  // the heading stays with the pictures, and they with their captions
  sheet.keepTogether(height + 80);
  sheet.heading(2, "Pictures");
  if (placed.length > 0)
    sheet.figure(placed.map(({ side, marks }) => words.sideAlt(side, marks)).join(" "), height, (topPt) => {
      for (const { side, jpeg, marks, box } of placed) drawSide(sheet, jpeg, side, marks, { ...box, topPt: topPt + 4 });
    });
  for (const side of sides) {
    const isUnreadable = !("absent" in side) && !pictures.sides.has(side.side);
    const said = isUnreadable ? { side: side.side, absent: cannotBeRead(side) } : side;
    sheet.paragraph(words.sideWords(said, standing), { soft: true, size: 8.5 });
  }
}

const cannotBeRead = ({ captureName }: PicturedSide) => `The capture ${captureName} cannot be read.`;

function writeRecord(sheet: ReportSheet, report: ConditionReport): void {
  sheet.section();
  sheet.heading(2, "Record");
  for (const { name, value } of words.recordFacts(report)) sheet.fact(name, value);
}

function writeCondition(sheet: ReportSheet, report: ConditionReport): void {
  const { survey } = report;
  sheet.section();
  sheet.heading(2, "Condition");
  if (!survey) {
    sheet.paragraph(words.NOT_LOOKED_AT);
    return;
  }
  for (const { name, value } of words.conditionFacts(survey, report)) sheet.fact(name, value);
  sheet.paragraph(words.gradeGround(survey) ?? "", { soft: true, size: 8.5 });
}

function writeFindings(sheet: ReportSheet, report: ConditionReport, pictures: ReportPictures): void {
  if (report.standing.length === 0) return;
  sheet.section();
  sheet.heading(2, "Findings");
  for (const [index, now] of report.standing.entries()) writeFinding(sheet, now, index + 1, report, pictures);
  sheet.paragraph(words.leftOutWords(report) ?? "", { soft: true });
}

function writeFinding(sheet: ReportSheet, now: LifeNow, number: number, { photographs }: ConditionReport, pictures: ReportPictures): void {
  sheet.heading(3, `${number} ${words.findingTitle(now)}`);
  sheet.paragraph(words.findingLevel(now) ?? "", { indent: 12 });
  for (const { name, value } of words.findingFacts(now)) sheet.fact(name, value, { indent: 12 });
  const own = words.photographsOf(now, photographs);
  const drawn = own.flatMap((photograph) => {
    const jpeg = pictures.photographs.get(photograph.id);
    return jpeg ? [{ photograph, jpeg }] : [];
  });
  for (let first = 0; first < drawn.length; first += 2) writePhotographs(sheet, drawn.slice(first, first + 2), termInWords(now.last));
  for (const photograph of own)
    if (!pictures.photographs.has(photograph.id))
      sheet.paragraph(`The photograph ${words.photographWords(photograph)}, cannot be read.`, { soft: true, size: 8.5, indent: 12 });
}

const MOST_PHOTOGRAPH_PT = 165;
const CAPTION_LETTER_PT = 8.5;

/** Two photographs side by side, each with its words below it. */
function writePhotographs(
  sheet: ReportSheet,
  pair: readonly { readonly photograph: FindingPhotograph; readonly jpeg: Buffer }[],
  of: string,
): void {
  const captions = pair.map(({ photograph }) => words.photographWords(photograph));
  const letters = captions.map((each) => sheet.letters(each));
  const boxes = pair.map(({ photograph: { widthPx, heightPx } }) =>
    within({ width: widthPx, height: heightPx }, { widthPt: HALF_PT, heightPt: MOST_PHOTOGRAPH_PT }),
  );
  const height = Math.max(...boxes.map(({ heightPt }) => heightPt));
  sheet.document.font("regular").fontSize(CAPTION_LETTER_PT);
  const captionPt = Math.max(...letters.map((each) => sheet.document.heightOfString(each, { width: HALF_PT })));
  sheet.figure(`Photographs of ${of}: ${captions.join("; ")}`, height + captionPt + 15, (topPt) => {
    for (const [index, { jpeg }] of pair.entries()) {
      const left = LEFT_PT + index * (HALF_PT + GAP_PT);
      sheet.document.image(jpeg, left, topPt + 6, { fit: [HALF_PT, height] });
      sheet.document.font("regular").fontSize(CAPTION_LETTER_PT).fillColor("black");
      sheet.document.text(letters[index] ?? "", left, topPt + height + 9, { width: HALF_PT });
    }
  });
}

function writeCautions(sheet: ReportSheet, { cautions, keptFrom }: ConditionReport): void {
  sheet.section();
  sheet.heading(2, "What to mind");
  if (keptFrom.length > 0) sheet.fact("Capturing", `${notWith(keptFrom)}, by the cautions below.`);
  for (const { level, title, text, cause, source } of cautions) {
    sheet.keepTogether(46);
    sheet.fact(`${LEVEL_WORDS[level]}: ${title}`, text, { before: 6 });
    sheet.paragraph(`${cause} Source: ${source}.`, { soft: true, size: 8 });
  }
  for (const line of new Set(cautions.map(({ defer }) => defer))) sheet.paragraph(line, { before: 6 });
}

function writeChanges(sheet: ReportSheet, { changes }: ConditionReport): void {
  sheet.section();
  sheet.heading(2, "Change, measured between captures");
  if (changes.length === 0) sheet.paragraph(words.NO_TWO_DAYS);
  for (const change of changes) {
    sheet.heading(3, words.changeTitle(change));
    sheet.paragraph(words.whyNoChange(change) ?? "");
    if (change.held && !("refused" in change.held))
      for (const { name, value } of words.changeFacts(change.held)) sheet.fact(name, value, { size: 8.5 });
  }
  if (changes.some((change) => words.whyNoChange(change) === null)) sheet.paragraph(words.CHANGE_GROUND, { soft: true, size: 8.5 });
}

const SIGNED_FROM_PT = 190;

function writeSignatures(sheet: ReportSheet): void {
  sheet.section();
  sheet.keepTogether(150);
  sheet.heading(2, "Signatures");
  for (const line of words.SIGNATURES) {
    sheet.paragraph(line, { before: 20 });
    const { document } = sheet;
    document.markContent("Artifact", { type: "Layout" });
    document
      .moveTo(LEFT_PT + SIGNED_FROM_PT, document.y - 3)
      .lineTo(LEFT_PT + TEXT_WIDTH_PT, document.y - 3)
      .lineWidth(0.6)
      .stroke("black");
    document.endMarkedContent();
  }
}

function writeMissingLetters(sheet: ReportSheet): void {
  const { size } = sheet.lettersMissing;
  if (size > 0)
    sheet.paragraph(
      `${size === 1 ? "One letter" : `${size} letters`} of a script that this file's typeface does not have ${size === 1 ? "is" : "are"} shown as a mark; the record on the screen shows ${size === 1 ? "it" : "them"}.`,
      { soft: true, before: 14 },
    );
}
