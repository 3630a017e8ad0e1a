import { Command } from "commander";
import { checkFixity } from "../actions/check-fixity.ts";
import { EXIT, type ExitCode } from "./exit-code.ts";
import { showProgress } from "./progress.ts";
import { answerJson, counted, type Terminal } from "./terminal.ts";
import { COLLECTION, type CommonOptions, collectionDirectory, JSON_ANSWER, withCollection } from "./with-collection.ts";

export function checkCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("check")
    .description(
      "Check every original against its hash, and files against records. Nothing is changed; what is found is kept as a fixity check.",
    )
    .option(...COLLECTION)
    .option(...JSON_ANSWER)
    .action(async (options: CommonOptions) => {
      await withCollection(collectionDirectory(terminal, options), {}, async (context) => {
        const progress = showProgress(terminal, "Checking");
        const found = await checkFixity(context, { onProgress: progress.show, stop: terminal.stop });
        progress.end();
        if (options.json) answerJson(terminal, found);
        else terminal.answer(inWords(found));
        end(found.problems.length > 0 || found.left > 0 ? EXIT.fellShort : EXIT.done);
      });
    });
}

function inWords({ checked, problems, left }: Awaited<ReturnType<typeof checkFixity>>): string {
  const lines = problems.map(({ about, happened, remedy }) => `${about ?? "The collection"}: ${happened} ${remedy}`);
  lines.push(
    `${counted(checked, "original", "originals")} checked; ${problems.length === 0 ? "all are as they were taken in." : `${counted(problems.length, "thing", "things")} found wrong.`}`,
  );
  if (left > 0) lines.push(`Stopped; ${counted(left, "original was", "originals were")} not looked at.`);
  return `${lines.join("\n")}\n`;
}
