import { Command, CommanderError } from "commander";
import packageFile from "../../../package.json" with { type: "json" };
import { addCommand } from "./add.ts";
import { capturesCommand } from "./captures.ts";
import { careCommand } from "./care.ts";
import { changeCommand } from "./change.ts";
import { checkCommand } from "./check.ts";
import { chooseCommand } from "./choose.ts";
import { climateCommand } from "./climate.ts";
import { demoCommand } from "./demo.ts";
import { divideCommand } from "./divide.ts";
import { dueCommand } from "./due.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { formatsCommand } from "./formats.ts";
import { inventoryCommand } from "./inventory.ts";
import { matchCommand } from "./match.ts";
import { measureCommand } from "./measure.ts";
import { methodsCommand } from "./methods.ts";
import { planCommand } from "./plan.ts";
import { purposesCommand } from "./purposes.ts";
import { recaptureCommand } from "./recapture.ts";
import { reportCommand } from "./report.ts";
import { serveCommand } from "./serve.ts";
import { targetCommand } from "./target.ts";
import type { Terminal } from "./terminal.ts";
import { worksheetCommand } from "./worksheet.ts";

const EXIT_CODES = `
Exit codes: 0 done; 1 done, but something was refused, found wrong or left undone; 2 the command was
not understood; 3 the collection cannot be opened; 70 a defect in the program.`;

/** Asked to stop again after this long, the program ends at once; a collection survives that (see intake and work). */
const SAME_PRESS_MS = 1_000;

/** Runs one command of the command line and says how it ended. */
export async function run(args: readonly string[], terminal: Terminal): Promise<ExitCode> {
  let ended: ExitCode = EXIT.done;
  const end = (code: ExitCode) => {
    ended = code;
  };
  const program = new Command("solander")
    .description(packageFile.description)
    .version(packageFile.version)
    .addHelpText("after", EXIT_CODES)
    .exitOverride()
    .configureOutput({ writeOut: terminal.answer, writeErr: terminal.tell });
  for (const make of [
    serveCommand,
    demoCommand,
    addCommand,
    capturesCommand,
    measureCommand,
    chooseCommand,
    purposesCommand,
    divideCommand,
    matchCommand,
    changeCommand,
    formatsCommand,
    recaptureCommand,
    planCommand,
    methodsCommand,
    worksheetCommand,
    targetCommand,
    dueCommand,
    reportCommand,
    inventoryCommand,
    climateCommand,
    careCommand,
    checkCommand,
  ]) {
    const command = make(terminal, end);
    for (const part of command.commands) part.copyInheritedSettings(program).addHelpText("after", EXIT_CODES);
    program.addCommand(command.copyInheritedSettings(program).addHelpText("after", EXIT_CODES));
  }
  try {
    await program.parseAsync([...args], { from: "user" });
    return ended;
  } catch (error) {
    return endingOf(error, terminal);
  }
}

/** The command line as the shell starts it. */
export async function main(): Promise<void> {
  const stopping = new AbortController();
  let askedAt = 0;
  const stop = () => {
    // npm hands on what the terminal has sent already, so one Ctrl-C can come twice
    if (stopping.signal.aborted && Date.now() - askedAt > SAME_PRESS_MS) process.exit(130);
    askedAt ||= Date.now();
    stopping.abort();
  };
  process.on("SIGINT", stop);
  process.on("SIGTERM", stop);
  // a reader such as `head` may close the pipe before the end
  process.stdout.on("error", (error: NodeJS.ErrnoException) => process.exit(error.code === "EPIPE" ? EXIT.done : EXIT.defect));
  process.exitCode = await run(process.argv.slice(2), {
    env: process.env,
    answer: (text) => process.stdout.write(text),
    tell: (text) => process.stderr.write(text),
    screen: process.stderr.isTTY ? process.stderr : null,
    stop: stopping.signal,
  });
  process.off("SIGINT", stop);
  process.off("SIGTERM", stop);
}

function endingOf(error: unknown, terminal: Terminal): ExitCode {
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.usage;
  if (error instanceof Ending) {
    terminal.tell(`${error.message}\n`);
    return error.code;
  }
  terminal.tell(
    `This is a defect in the program; please report it. Your files are as they were.\n${error instanceof Error ? error.stack : error}\n`,
  );
  return EXIT.defect;
}
