import { existsSync, readdirSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { Command } from "commander";
import { readCollection } from "#drizzle/queries/collection.ts";
import { countCollection } from "#drizzle/queries/overview.ts";
import { divideDemoBed } from "../actions/divide-demo-bed.ts";
import { fillDemoCollection } from "../actions/fill-demo-collection.ts";
import { fillDemoTargetChecks } from "../actions/fill-demo-target-checks.ts";
import { fillDemoWorkSheet } from "../actions/fill-demo-work-sheet.ts";
import type { Context } from "../context.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { showProgress } from "./progress.ts";
import { type ServeOptions, serveUntilStopped } from "./serve.ts";
import { answerJson, counted, type Terminal } from "./terminal.ts";
import { holdsCollection, JSON_ANSWER, withCollection } from "./with-collection.ts";
import { type Worked, workToTheEnd } from "./work-to-the-end.ts";

/** Inside the package, so that the demo never lands among a keeper's own files by accident. */
const DEMO_DIRECTORY = fileURLToPath(new URL("../../../demo-collection/collection", import.meta.url));

type Options = ServeOptions & { readonly serve: boolean };

export function demoCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("demo")
    .description("Make the demo collection of an invented family and gallery, measure it, choose the masters and serve it.")
    .option("--no-serve", "do the work and end")
    .option("--port <NUMBER>", "port to listen at (or PORT)")
    .option("--host <NAME>", "address to listen at (or HOST); this machine only, until there is a sign-in")
    .option("--collection <DIR>", "an empty folder to make it in (or SOLANDER_COLLECTION)", undefined)
    .option(...JSON_ANSWER)
    .action(async (options: Options) => {
      const directory = path.resolve(options.collection ?? terminal.env.SOLANDER_COLLECTION ?? DEMO_DIRECTORY);
      refuseOtherFolders(directory);
      await withCollection(directory, { mayBeNew: true, name: "Demo collection", isDemo: true }, async (context) => {
        if (!readCollection(context.db).isDemo)
          throw new Ending(
            EXIT.noCollection,
            `${directory} holds a collection that is not the demo. Nothing was changed. Name another folder with --collection.`,
          );
        const progress = showProgress(terminal, "Taking in the demo collection");
        await fillDemoCollection(context, progress.show);
        progress.end();
        const worked = await workThroughDemo(context, terminal);
        if (worked.left === 0) fillDemoWorkSheet(context);
        if (!terminal.stop.aborted) await fillDemoTargetChecks(context);
        const counts = countCollection(context.db);
        const text = `${counted(counts.prints, "print", "prints")}, ${counted(counts.captures, "capture", "captures")}, ${counts.masters} preservation ${counts.masters === 1 ? "master" : "masters"} in ${directory}.\n`;
        if (options.json) answerJson(terminal, { directory, ...counts, ...worked });
        else terminal.answer(text);
        for (const { fileName, error } of worked.failed) terminal.tell(`${fileName ?? "A comparison"}: ${error}\n`);
        if (worked.left > 0) terminal.tell("Stopped. Run the same command to go on.\n");
        if (options.serve && !terminal.stop.aborted) await serveUntilStopped(context, terminal, options);
        end(worked.failed.length > 0 || worked.left > 0 ? EXIT.fellShort : EXIT.done);
      });
    });
}

/** A bed can be divided only when it has been measured, and its parts are measured after that. */
async function workThroughDemo(context: Context, terminal: Terminal): Promise<Worked> {
  const first = await workToTheEnd(context, terminal);
  if (first.left > 0 || divideDemoBed(context) === 0) return first;
  const second = await workToTheEnd(context, terminal);
  return { done: first.done + second.done, failed: [...first.failed, ...second.failed], left: second.left };
}

/** A folder with anything in it but a collection is somebody's: it is not touched. */
function refuseOtherFolders(directory: string): void {
  if (!existsSync(directory) || holdsCollection(directory)) return;
  if (readdirSync(directory).length > 0)
    throw new Ending(
      EXIT.noCollection,
      `${directory} is not empty and holds no collection. Nothing was changed. Name an empty folder with --collection.`,
    );
}
