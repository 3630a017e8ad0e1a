import { existsSync, statSync } from "node:fs";
import path from "node:path";
import { Command } from "commander";
import { durationInWords, HELD_PROBLEMS, type ImportReport } from "#domain/storage/climate/import-report.ts";
import { isDelimiter, type LoggerMapping, loggerMapping } from "#domain/storage/climate/logger-mapping.ts";
import { limitInWords } from "#domain/storage/climate/published-limits.ts";
import { isStretch, type StretchName } from "#domain/storage/climate/stretch.ts";
import { flatten, type PlaceNode, pathInWords, placeTree } from "#domain/storage/place-tree.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import { utcMinute } from "#views/format/utc-minute.ts";
import { importClimate } from "../actions/import-climate.ts";
import { lookAtLoggerFile, NoLoggerFile } from "../climate/logger-file.ts";
import { shownClimate } from "../climate/shown-climate.ts";
import type { Context } from "../context.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { showProgress } from "./progress.ts";
import { answerJson, counted, refusalLine, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, JSON_ANSWER, withCollection } from "./with-collection.ts";

type ImportOptions = CommonOptions & {
  readonly place: string;
  readonly between?: string;
  readonly firstRow?: string;
  readonly time?: string;
  readonly clock?: string;
  readonly temperature?: string;
  readonly humidity?: string;
  readonly unit?: string;
  readonly date?: string;
  readonly zone?: string;
  readonly decimal?: string;
};

type ShowOptions = CommonOptions & { readonly place: string; readonly stretch: string };

/** Readings of temperature and humidity: adding a logger's file, and what a place's readings say. */
export function climateCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  const common = (command: Command) =>
    command
      .requiredOption("--place <NAME>", "name of the place, or the way to it: “Study › Second shelf”")
      .option(...COLLECTION)
      .option(...JSON_ANSWER);
  return new Command("climate")
    .description("Add a logger's readings of temperature and humidity to a place, and say what they mean for the prints there.")
    .addCommand(
      common(
        new Command("import").description("Read a logger's CSV file into a place. What is not said is seen from the file's first rows."),
      )
        .argument("<FILE>", "the logger's file")
        .option(
          "--zone <ZONE>",
          "time zone of the logger's clock: UTC, +01:00, or a name such as Europe/Lisbon (else that of this machine)",
        )
        .option("--time <COLUMN>", "column of date and time: its number, or its name")
        .option("--clock <COLUMN>", "column of the time of day, where it stands apart")
        .option("--temperature <COLUMN>", "column of the temperature")
        .option("--humidity <COLUMN>", "column of the relative humidity")
        .option("--unit <UNIT>", "celsius or fahrenheit")
        .option("--date <ORDER>", "year-month-day, day-month-year or month-day-year")
        .option("--decimal <SIGN>", "point or comma")
        .option("--between <SIGN>", "what stands between columns: comma, semicolon or tab")
        .option("--first-row <NUMBER>", "the first row that holds a reading")
        .action(async (file: string, options: ImportOptions) => {
          await withCollection(collectionDirectory(terminal, options), {}, async (context) => {
            const place = namedPlace(context, options.place);
            const mapping = await mappingOf(file, options);
            const progress = showProgress(terminal, "Reading, in hundredths of the file");
            const outcome = await importClimate(context, {
              placeId: place.id,
              file,
              fileName: path.basename(file),
              mapping,
              stop: terminal.stop,
              onProgress: ({ bytes, bytesOfAll }) => progress.show(Math.round((100 * bytes) / Math.max(1, bytesOfAll)), 100),
            });
            progress.end();
            if (!outcome.ok) {
              for (const refusal of outcome.refusals) terminal.tell(`${refusalLine(refusal)}\n`);
              return end(EXIT.fellShort);
            }
            const { report } = outcome.value;
            if (options.json) answerJson(terminal, { place: place.path, mapping, ...report });
            else terminal.answer(reportText(report, pathInWords(place.path)));
            end(report.problems.length > 0 ? EXIT.fellShort : EXIT.done);
          });
        }),
    )
    .addCommand(
      common(new Command("show").description("Say what a place's readings mean for the prints there."))
        .option("--stretch <NAME>", "month, year or all, counted back from the last reading", "year")
        .action(async (options: ShowOptions) => {
          if (!isStretch(options.stretch)) throw new Ending(EXIT.usage, "--stretch takes month, year or all.");
          const stretch: StretchName = options.stretch;
          await withCollection(collectionDirectory(terminal, options), {}, (context) => {
            const place = namedPlace(context, options.place);
            const shown = shownClimate(context, placeTree(listPlaces(context.db)), place.id, stretch);
            if (!shown) throw new Ending(EXIT.fellShort, `Nothing was read in ${pathInWords(place.path)} yet.`);
            const { fromSeconds, toSeconds, atSeconds } = shown.series;
            if (options.json)
              answerJson(terminal, { place: place.path, fromSeconds, toSeconds, readings: atSeconds.length, ...shown.climate });
            else terminal.answer(climateText(shown));
            end(EXIT.done);
          });
        }),
    );
}

/** @throws Ending where no place, or more than one, is called so */
function namedPlace(context: Context, name: string): PlaceNode {
  const nodes = flatten(placeTree(listPlaces(context.db)));
  const plain = (text: string) =>
    text
      .replace(/\s*[›>/]\s*/g, " › ")
      .trim()
      .toLowerCase();
  const called = nodes.filter((node) => plain(pathInWords(node.path)) === plain(name) || plain(node.name) === plain(name));
  const [first, ...others] = called;
  if (!first)
    throw new Ending(EXIT.usage, `No place is called “${name}”. Places: ${nodes.map((node) => pathInWords(node.path)).join("; ")}.`);
  if (others.length > 0)
    throw new Ending(
      EXIT.usage,
      `More than one place is called “${name}”. Say which: ${called.map((node) => pathInWords(node.path)).join("; ")}.`,
    );
  return first;
}

/** What is said of the columns, and for the rest what the file's first rows tell. */
async function mappingOf(file: string, options: ImportOptions): Promise<LoggerMapping> {
  if (!existsSync(file) || !statSync(file).isFile()) throw new Ending(EXIT.usage, `There is no file ${file}.`);
  const looked = await lookAtLoggerFile(file, isDelimiter(options.between) ? { delimiter: options.between } : {}).catch((error) => {
    if (error instanceof NoLoggerFile) throw new Ending(EXIT.fellShort, `${file}: ${error.message}`);
    throw error;
  });
  const { headerRow, ...guessed } = looked.guessed;
  const column = (said: string | undefined): string | undefined => {
    if (said === undefined || /^\d+$/.test(said)) return said;
    const index = headerRow.findIndex((name) => name.trim().toLowerCase() === said.trim().toLowerCase());
    if (index === -1)
      throw new Ending(
        EXIT.usage,
        `No column is called “${said}”. Columns: ${headerRow.map((name) => name.trim()).join("; ") || "without names; count them from 1"}.`,
      );
    return String(index + 1);
  };
  const said = {
    delimiter: options.between,
    firstRow: options.firstRow,
    timeColumn: column(options.time),
    clockColumn: column(options.clock),
    dateOrder: options.date,
    timeZone: options.zone ?? Intl.DateTimeFormat().resolvedOptions().timeZone,
    temperatureColumn: column(options.temperature),
    temperatureUnit: options.unit,
    humidityColumn: column(options.humidity),
    decimalSign: options.decimal,
  };
  const seen = Object.entries({ delimiter: looked.delimiter, ...guessed }).map(([name, value]) => [
    name,
    value === null ? "" : String(value),
  ]);
  const told = Object.entries(said).filter(([, value]) => value !== undefined);
  const read = loggerMapping.safeParse({ ...Object.fromEntries(seen), ...Object.fromEntries(told) });
  if (read.success) return read.data;
  const problems = read.error.issues.map(({ path: [field], message }) => `  ${OPTION_OF[String(field)] ?? ""} ${message}`);
  throw new Ending(EXIT.usage, `How ${file} is to be read is not clear:\n${problems.join("\n")}`);
}

const OPTION_OF: Readonly<Record<string, string>> = {
  delimiter: "--between:",
  firstRow: "--first-row:",
  timeColumn: "--time:",
  clockColumn: "--clock:",
  dateOrder: "--date:",
  timeZone: "--zone:",
  temperatureColumn: "--temperature:",
  temperatureUnit: "--unit:",
  humidityColumn: "--humidity:",
  decimalSign: "--decimal:",
};

function reportText(report: ImportReport, place: string): string {
  const lines = [
    `${counted(report.kept, "reading", "readings")} added to ${place}, from ${utcMinute(report.firstSeconds)} to ${utcMinute(report.lastSeconds)} (UTC).`,
    ...report.problems.flatMap(({ problem, count, named }) => [
      `${HELD_PROBLEMS[problem]} (${counted(count, "row", "rows")})`,
      ...named.map(({ row, text }) => `  row ${row}: ${text}`),
      ...(count > named.length ? [`  and ${count - named.length} more`] : []),
    ]),
    report.gapCount === 0
      ? "No gaps."
      : `${counted(report.gapCount, "gap", "gaps")}, the longest ${durationInWords(report.longestGapSeconds)}:`,
    ...report.gaps.map((gap) => `  between rows ${gap.afterRow} and ${gap.beforeRow}: ${durationInWords(gap.seconds)}`),
  ];
  return `${lines.join("\n")}\n`;
}

function climateText({ climate, series, processNames }: NonNullable<ReturnType<typeof shownClimate>>): string {
  const share = (value: number) => `${(100 * value).toFixed(1)} %`;
  const lines = [
    `${counted(series.atSeconds.length, "reading", "readings")} from ${utcMinute(series.fromSeconds)} to ${utcMinute(series.toSeconds)} (UTC), ${share(climate.coveredShare)} of that time covered.`,
    ...climate.againstLimits.map(({ limit, processIds, time }) => {
      const who = processIds.length === 0 ? limit.name : processIds.map((id) => processNames.get(id) ?? id).join("; ");
      if (!time.known) return `${who}: ${time.reason}`;
      const { outsideShare, insideShare, unknownShare, longest } = time.value;
      const length = longest ? `, at least ${durationInWords(longest.seconds)} without a break` : "";
      return `${who} (${limitInWords(limit)}): outside ${share(outsideShare)}${length}, inside ${share(insideShare)}, not known ${share(unknownShare)}.`;
    }),
    climate.rate.known
      ? `Ageing ${climate.rate.value.byTemperature.toFixed(2)} times as fast as in a steady 20 °C by temperature alone${climate.rate.value.byBoth === null ? "" : `, ${climate.rate.value.byBoth.toFixed(2)} times as in 20 °C and 50 % with humidity`}.`
      : `Ageing: ${climate.rate.reason}`,
    climate.mould.known
      ? `Damp enough for mould on ${climate.mould.value.riskDays} of ${counted(climate.mould.value.toldDays, "day", "days")}.`
      : `Mould: ${climate.mould.reason}`,
  ];
  return `${lines.join("\n")}\n`;
}
