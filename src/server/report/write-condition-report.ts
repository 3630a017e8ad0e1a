import { CHANGES } from "#domain/condition/change/change-names.ts";
import { VERDICT_WORDS } from "#domain/condition/change/verdict.ts";
import type { LifeNow } from "#domain/condition/condition-now.ts";
import { EXTENT_WORDS } from "#domain/condition/extent.ts";
import { ACTIVITY_WORDS } from "#domain/condition/finding.ts";
import { lookInWords, severityInWords, termInWords } from "#domain/condition/finding-in-words.ts";
import { GRADE_MEANINGS, GRADE_SOURCE, GRADE_WORDS } from "#domain/condition/grade.ts";
import { regionsInWords } from "#domain/condition/marked-region.ts";
import { levelOf, SEVERITIES } from "#domain/condition/severity.ts";
import { findTerm } from "#domain/condition/terms.ts";
import { dateInWords } from "#domain/print/date.ts";
import { imageSize, type PrintSize, sheetSize } from "#domain/print/dimensions.ts";
import { findFormat } from "#domain/print/format.ts";
import { findProcess } from "#domain/print/process.ts";
import { pathInWords } from "#domain/storage/place-tree.ts";
import { sizeInMm } from "#views/format/millimetres.ts";
import { LEVEL_WORDS } from "#views/parts/cautions.tsx";
import { figure } from "#views/parts/change-numbers.tsx";
import { notWith } from "#views/parts/method-stop.tsx";
import { PRINT_LABELS } from "#views/parts/print-fields.tsx";
import type { ConditionReport, ReportChange, ReportPhotograph, ReportSide } from "./condition-report.ts";
import { drawSide, type NumberedRegions, within } from "./draw-side.ts";
import { LEFT_PT, ReportSheet, TEXT_WIDTH_PT } from "./report-sheet.ts";

/** Writes a condition report as PDF: what the print is, how it looks, what was found, what to mind, and room for signatures. */
export async function writeConditionReport(report: ConditionReport): Promise<Buffer> {
  const { print, collectionName, at } = report;
  const title = `Condition report: ${print.objectNumber} ${print.title}`.trim();
  const sheet = new ReportSheet({ title, author: collectionName, at: new Date(at) });
  writeRecord(sheet, report);
  writeCondition(sheet, report);
  writeSides(sheet, report);
  writeFindings(sheet, report);
  writeChanges(sheet, report.changes);
  writeCautions(sheet, report);
  writeSignatures(sheet);
  writeMissingLetters(sheet);
  return sheet.finish(`${print.objectNumber}, condition report of ${dateInWords(at.slice(0, 10))}`);
}

function writeRecord(sheet: ReportSheet, { print, collectionName, placePath, at }: ConditionReport): void {
  sheet.section();
  sheet.heading(1, `${print.objectNumber} ${print.title === "" ? "Untitled" : print.title}`);
  sheet.paragraph(`Condition report of ${dateInWords(at.slice(0, 10))}, ${collectionName}`, { soft: true, size: 10.5 });
  sheet.heading(2, "Record");
  const facts: [name: string, value: string | null][] = [
    ["date", print.date === null ? null : [dateInWords(print.date), print.dateGround].filter(Boolean).join(". ")],
    ["processId", findProcess(print.processId)?.name ?? print.processId],
    ["formatId", print.formatId === null ? null : (findFormat(print.formatId)?.name ?? print.formatId)],
    ["placeId", placePath.length === 0 ? "not known" : pathInWords(placePath)],
    ["maker", print.maker],
    ["people", print.people.join("; ")],
    ["subjects", print.subjects.join("; ")],
    ["inscriptionFront", print.inscriptionFront],
    ["inscriptionBack", print.inscriptionBack],
    ["processedOn", print.processedOn === null ? null : dateInWords(print.processedOn)],
    ["provenance", print.provenance],
    ["credit", print.credit],
    ["notes", print.notes],
  ];
  for (const [name, value] of facts) if (value) sheet.fact(PRINT_LABELS[name] ?? name, value);
  for (const [name, size] of [
    ["Sheet", sheetSize(print)],
    ["Image", imageSize(print)],
  ] as const)
    if (size) sheet.fact(name, sizeInWords(size));
}

const sizeInWords = ({ widthMm, heightMm, basis, toleranceMm }: PrintSize): string =>
  `${sizeInMm(widthMm, heightMm)}, ${basis === "measured" ? "measured" : `nominal, ± ${toleranceMm} mm`}`;

function writeCondition(sheet: ReportSheet, { survey, next, standing, notFound, gone }: ConditionReport): void {
  sheet.section();
  sheet.heading(2, "Condition");
  if (!survey) {
    sheet.paragraph("Nobody has looked at its condition yet.");
    return;
  }
  if (survey.grade) {
    sheet.fact("Grade", `${GRADE_WORDS[survey.grade]}. ${GRADE_MEANINGS[survey.grade]}`);
    sheet.paragraph(
      `${survey.gradeBasis === "said" ? "Given by a person" : "Proposed from the findings"}. The four grades: ${GRADE_SOURCE}.`,
      { soft: true, size: 8.5 },
    );
  }
  sheet.fact("Looked at", `${dateInWords(survey.surveyedOn)}, ${survey.who ?? "nobody named"}`);
  if (next) sheet.fact("Next look", `by ${dateInWords(next.dueOn)}, because ${next.because}`);
  if (survey.note) sheet.fact("Note", survey.note);
  sheet.fact(
    "Found",
    standing.length === 0 ? "nothing" : standing.map(({ last }, index) => `${index + 1} ${termInWords(last)}`).join("; "),
  );
  if (notFound.length > 0) sheet.fact("Looked for and not found", notFound.map(({ last }) => termInWords(last)).join("; "));
  if (gone.length > 0)
    sheet.fact("Gone since", gone.map(({ last }) => `${termInWords(last)} (${dateInWords(last.surveyedOn)})`).join("; "));
}

const GAP_PT = 14;
const HALF_PT = (TEXT_WIDTH_PT - GAP_PT) / 2;
const MOST_SIDE_PT = 310;

function writeSides(sheet: ReportSheet, { sides, standing }: ConditionReport): void {
  const shown = sides.filter((side): side is Extract<ReportSide, { jpeg: Buffer }> => "jpeg" in side);
  const most = { widthPt: shown.length === 1 ? TEXT_WIDTH_PT * 0.62 : HALF_PT, heightPt: MOST_SIDE_PT };
  const placed = shown.map((side, index) => ({
    side,
    marks: standing.flatMap(({ last }, at) =>
      last.side === side.side && last.regions.length > 0 ? [{ number: at + 1, regions: last.regions }] : [],
    ),
    box: { ...within({ width: side.widthMm, height: side.heightMm }, most), leftPt: LEFT_PT + index * (HALF_PT + GAP_PT) },
  }));
  const height = Math.max(0, ...placed.map(({ box }) => box.heightPt)) + 8;
  sheet.section();
  // the heading stays with the pictures, and they with their captions
  sheet.keepTogether(height + 80);
  sheet.heading(2, "Pictures");
  if (placed.length > 0)
    sheet.figure(placed.map(altOf).join(" "), height, (topPt) => {
      for (const { side, marks, box } of placed) drawSide(sheet, side.jpeg, side, marks, { ...box, topPt: topPt + 4 });
    });
  for (const side of sides) {
    const words =
      "absent" in side ? `no picture. ${side.absent}` : `${sizeInMm(side.widthMm, side.heightMm)}, straightened from ${side.captureName}.`;
    sheet.paragraph(`${sideName(side)}: ${words}`, { soft: true, size: 8.5 });
  }
}

const altOf = ({ side, marks }: { side: ReportSide; marks: readonly NumberedRegions[] }): string => {
  const numbers = marks.map(({ number }) => number).join(", ");
  return `The ${side.side}${marks.length > 0 ? `, with the places of findings ${numbers} marked` : ""}.`;
};

const sideName = ({ side }: Pick<ReportSide, "side">) => (side === "front" ? "Front" : "Back");

function writeFindings(sheet: ReportSheet, { standing, photographs, leftOut, print }: ConditionReport): void {
  if (standing.length === 0) return;
  sheet.section();
  sheet.heading(2, "Findings");
  for (const [index, now] of standing.entries()) writeFinding(sheet, now, index + 1, photographs);
  if (leftOut > 0) sheet.paragraph(`${leftOut} more photographs are kept with the record of ${print.objectNumber}.`, { soft: true });
}

function writeFinding(sheet: ReportSheet, { life, last }: LifeNow, number: number, photographs: ConditionReport["photographs"]): void {
  const term = findTerm(last.term);
  const level = SEVERITIES.find((each) => each === last.severity);
  const about = [
    severityInWords(last.severity),
    ...(last.activity === "not-known" ? [] : [ACTIVITY_WORDS[last.activity]]),
    ...(last.extent ? [EXTENT_WORDS[last.extent]] : []),
  ];
  sheet.heading(3, `${number} ${termInWords(last)}: ${about.join(", ")}`);
  if (term && level !== undefined) sheet.paragraph(`Level ${last.severity} of 4: ${levelOf(term, level)}.`, { indent: 12 });
  if (last.note) sheet.fact("Note", last.note, { indent: 12 });
  if (last.regions.length > 0) sheet.fact("Places", `${regionsInWords(last.regions)}.`, { indent: 12 });
  if (life.length > 1)
    sheet.fact("Since it was found", life.map((look) => `${dateInWords(look.surveyedOn)} ${lookInWords(look)}`).join("; "), { indent: 12 });
  const own = life.flatMap(({ id }) => photographs.get(id) ?? []);
  for (let first = 0; first < own.length; first += 2) writePhotographs(sheet, own.slice(first, first + 2), termInWords(last));
}

const MOST_PHOTOGRAPH_PT = 165;
const CAPTION_LETTER_PT = 8.5;

/** Two photographs side by side, each with its words below it. */
function writePhotographs(sheet: ReportSheet, pair: readonly ReportPhotograph[], of: string): void {
  const words = pair.map(({ caption, name, takenAt, addedAt }) => {
    const when = takenAt ? `taken ${takenAt.slice(0, 10)}, as its camera says` : `added ${addedAt.slice(0, 10)}`;
    return `${caption ?? name}, ${when}`;
  });
  const drawn = words.map((each) => sheet.letters(each));
  const boxes = pair.map(({ widthPx, heightPx }) =>
    within({ width: widthPx, height: heightPx }, { widthPt: HALF_PT, heightPt: MOST_PHOTOGRAPH_PT }),
  );
  const height = Math.max(...boxes.map(({ heightPt }) => heightPt));
  sheet.document.font("regular").fontSize(CAPTION_LETTER_PT);
  const captionPt = Math.max(...drawn.map((each) => sheet.document.heightOfString(each, { width: HALF_PT })));
  sheet.figure(`Photographs of ${of}: ${words.join("; ")}`, height + captionPt + 15, (topPt) => {
    for (const [index, { jpeg }] of pair.entries()) {
      const left = LEFT_PT + index * (HALF_PT + GAP_PT);
      sheet.document.image(jpeg, left, topPt + 6, { fit: [HALF_PT, height] });
      sheet.document.font("regular").fontSize(CAPTION_LETTER_PT).fillColor("black");
      sheet.document.text(drawn[index] ?? "", left, topPt + height + 9, { width: HALF_PT });
    }
  });
}

function writeChanges(sheet: ReportSheet, changes: readonly ReportChange[]): void {
  if (changes.length === 0) return;
  sheet.section();
  sheet.heading(2, "Change, measured between captures");
  for (const { side, from, to, change } of changes) {
    sheet.heading(3, `${sideName({ side })}, from ${dateInWords(from)} to ${dateInWords(to)}`);
    for (const number of change.numbers) {
      if ("absent" in number) continue;
      const { label, unit } = CHANGES[number.name];
      const value = `${number.value < 0 ? "−" : "+"}${figure(Math.abs(number.value), unit)} ± ${figure(number.expandedUncertainty, unit)}`;
      sheet.fact(label, `${value}, ${VERDICT_WORDS[number.verdict]}`, { size: 8.5 });
    }
    sheet.fact("New or altered places", `${change.structures.length}, ${VERDICT_WORDS[change.structuresVerdict]}`, { size: 8.5 });
  }
  sheet.paragraph("Newer less older, with the expanded uncertainty (k = 2, JCGM 100:2008).", { soft: true, size: 8.5 });
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

function writeSignatures(sheet: ReportSheet): void {
  sheet.section();
  sheet.keepTogether(150);
  sheet.heading(2, "Signatures");
  for (const who of ["Looked at by", "Handed over by", "Received by"]) {
    sheet.paragraph(`${who} (name, day, signature)`, { before: 20 });
    const { document } = sheet;
    document.markContent("Artifact", { type: "Layout" });
    document
      .moveTo(LEFT_PT + 190, document.y - 3)
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
