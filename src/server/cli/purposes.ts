import { readFileSync } from "node:fs";
import { Command } from "commander";
import type { Aim } from "#domain/aim/aim.ts";
import { isReadyMade } from "#domain/aim/aim.ts";
import { type AimFile, aimFile, aimFileSchema } from "#domain/aim/aim-file.ts";
import type { Outcome } from "#domain/outcome.ts";
import { findAim, listAimVersions, listAllPurposes } from "#drizzle/queries/aims.ts";
import { countChoices } from "#drizzle/queries/choices.ts";
import { labelOf, limitInWords } from "#views/parts/aim-words.ts";
import { createPurpose } from "../actions/create-purpose.ts";
import { editPurpose } from "../actions/edit-purpose.ts";
import { renewChoices } from "../actions/renew-choices.ts";
import type { Context } from "../context.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { answerJson, refusalLine, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, JSON_ANSWER, withCollection } from "./with-collection.ts";

type Options = CommonOptions & { readonly aimVersion?: string; readonly into?: string; readonly note?: string };

/** A file of an aim is a few kB; this is no such file. */
const MOST_BYTES = 1024 * 1024;

/** What masters are chosen for: listed, read in any version, and handed on as files. */
export function purposesCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  const part = (name: string, description: string) =>
    new Command(name)
      .description(description)
      .option(...COLLECTION)
      .option(...JSON_ANSWER);
  const opened = (options: Options, use: (context: Context) => Promise<ExitCode> | ExitCode) =>
    withCollection(collectionDirectory(terminal, options), {}, async (context) => end(await use(context)));
  return new Command("purposes")
    .description("List what masters are chosen for, read what each purpose asks, and hand aims on as files.")
    .addCommand(
      part("list", "All purposes, with how many masters each has.").action((options: Options) =>
        opened(options, ({ db }) => {
          const counts = countChoices(db);
          const rows = listAllPurposes(db).map(({ id, key, name, note, isAside }) => ({
            key,
            name,
            note,
            readyMade: isReadyMade(key),
            setAside: isAside,
            version: findAim(db, key)?.version ?? null,
            ...(counts.get(id) ?? { masters: 0, none: 0, byHand: 0, tooClose: 0 }),
          }));
          if (options.json) answerJson(terminal, rows);
          else
            terminal.answer(
              rows
                .map(
                  (row) => `${row.key}  ${row.name}, version ${row.version}: ${row.masters} masters${row.setAside ? "; set aside" : ""}\n`,
                )
                .join(""),
            );
          return EXIT.done;
        }),
      ),
    )
    .addCommand(
      part("show", "What a purpose asks, and its versions.")
        .argument("<KEY>", "as “list” names it")
        .option("--aim-version <NUMBER>", "an earlier version")
        .action((key: string, options: Options) =>
          opened(options, ({ db }) => {
            const aim = named(db, key, options);
            const versions = listAimVersions(db, aim.purpose.id).map(({ version, note, who, createdAt }) => ({
              version,
              note,
              who,
              createdAt,
            }));
            if (options.json) answerJson(terminal, { key, version: aim.version, ...aimFile(aim), versions });
            else terminal.answer(inWords(aim));
            return EXIT.done;
          }),
        ),
    )
    .addCommand(
      part("export", "Write what a purpose asks as JSON on standard output, for another collection to import.")
        .argument("<KEY>", "as “list” names it")
        .option("--aim-version <NUMBER>", "an earlier version")
        .action((key: string, options: Options) =>
          opened(options, ({ db }) => {
            answerJson(terminal, aimFile(named(db, key, options)));
            return EXIT.done;
          }),
        ),
    )
    .addCommand(
      part("import", "Read an aim from a JSON file, as a new purpose or as a new version of one of your own.")
        .argument("<FILE>", "a file that “export” wrote, or one like it (schemas/aim.schema.json)")
        .option("--into <KEY>", "the purpose that gets it as a new version")
        .option("--note <TEXT>", "what was changed and why, kept with the version")
        .action((file: string, options: Options) =>
          opened(options, async (context) => {
            const { format: _, formatVersion: __, ...read } = readAimFile(file);
            const kept = options.into === undefined ? createPurpose(context, read) : newVersion(context, options.into, read, options.note);
            if (!kept.ok) {
              for (const refusal of kept.refusals) terminal.tell(`${refusalLine(refusal)}\n`);
              return EXIT.fellShort;
            }
            const { key } = kept.value;
            await renewChoices(context, { purposeKey: key });
            const version = findAim(context.db, key)?.version;
            if (options.json) answerJson(terminal, { key, version });
            else terminal.answer(`${key}, version ${version}. Masters are chosen by it.\n`);
            return EXIT.done;
          }),
        ),
    );
}

function newVersion(
  context: Context,
  key: string,
  { edition, ...input }: Omit<AimFile, "format" | "formatVersion">,
  note: string | undefined,
): Outcome<{ key: string }> {
  const readVersion = findAim(context.db, key)?.version ?? 0;
  return editPurpose(context, { key, readVersion, input, edition, changeNote: note?.trim().slice(0, 1000) || null });
}

function readAimFile(file: string): AimFile {
  let text: Buffer;
  try {
    text = readFileSync(file);
  } catch {
    throw new Ending(EXIT.usage, `${file} cannot be read. Check its name and rights.`);
  }
  if (text.length > MOST_BYTES) throw new Ending(EXIT.usage, `${file} is too large to be an aim.`);
  let value: unknown;
  try {
    value = JSON.parse(text.toString("utf8"));
  } catch {
    throw new Ending(EXIT.usage, `${file} is not JSON. Write one with “purposes export” and change that.`);
  }
  const read = aimFileSchema.safeParse(value);
  if (read.success) return read.data;
  const why = read.error.issues.slice(0, 20).map((issue) => `${issue.path.join(".") || "the file"}: ${issue.message}`);
  throw new Ending(EXIT.usage, `${file} is no aim that can be kept:\n${why.map((line) => `  ${line}`).join("\n")}`);
}

function named(db: Context["db"], key: string, { aimVersion }: Options): Aim {
  const aim = findAim(db, key, aimVersion === undefined ? null : Number(aimVersion));
  if (aim) return aim;
  if (findAim(db, key)) throw new Ending(EXIT.usage, `${key} has no version ${aimVersion}.`);
  const known = listAllPurposes(db).map((purpose) => purpose.key);
  throw new Ending(EXIT.usage, `There is no purpose ${key}. Name one of: ${known.join(", ")}.`);
}

const inWords = ({ purpose, name, version, edition, limits }: Aim): string =>
  [
    `${purpose.name}, version ${version}: ${name}. From: ${edition}.`,
    ...limits.map((limit) => `  ${labelOf(limit.measure)}: ${limitInWords(limit)}${limit.weight > 0 ? `; weight ${limit.weight}` : ""}`),
    "",
  ].join("\n");
