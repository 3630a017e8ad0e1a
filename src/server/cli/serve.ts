import { once } from "node:events";
import { Command } from "commander";
import { chooseMasters } from "../actions/choose-masters.ts";
import type { Context } from "../context.ts";
import { serve } from "../serve.ts";
import { startWork } from "../work/queue.ts";
import { Ending, EXIT, type ExitCode } from "./exit-code.ts";
import { answerJson, refusalLine, type Terminal } from "./terminal.ts";
import { type CommonOptions, collectionDirectory, withCollection } from "./with-collection.ts";

export type ServeOptions = CommonOptions & { readonly port?: string; readonly host?: string };

export function serveCommand(terminal: Terminal, end: (code: ExitCode) => void): Command {
  return new Command("serve")
    .description("Serve the collection to a browser on this machine, and measure what waits meanwhile. Ctrl-C ends it.")
    .option("--port <NUMBER>", "port to listen at (or PORT)")
    .option("--host <NAME>", "address to listen at (or HOST); this machine only, until there is a sign-in")
    .option("--collection <DIR>", "folder of the collection (or SOLANDER_COLLECTION); made when it is new")
    .option("--json", "say where it is served as JSON")
    .action(async (options: ServeOptions) => {
      await withCollection(collectionDirectory(terminal, options), { mayBeNew: true }, (context) =>
        serveUntilStopped(context, terminal, options),
      );
      end(EXIT.done);
    });
}

/** Serves and works until the keeper stops it. */
export async function serveUntilStopped(context: Context, terminal: Terminal, options: ServeOptions): Promise<void> {
  const port = options.port ?? terminal.env.PORT;
  const host = options.host ?? terminal.env.HOST;
  const outcome = await serve(context, { ...(port && { port: Number(port) }), ...(host && { host }) });
  if (!outcome.ok) throw new Ending(EXIT.usage, outcome.refusals.map(refusalLine).join("\n"));
  const { url, stop } = outcome.value;
  const work = startWork(context, { onMeasured: (printId) => chooseMasters(context, { printIds: [printId] }) });
  if (options.json) answerJson(terminal, { url });
  else terminal.answer(`The collection is served at ${url} (Ctrl-C ends it).\n`);
  if (!terminal.stop.aborted) await once(terminal.stop, "abort");
  terminal.tell("Finishing what is under way …\n");
  await stop();
  await work.stop();
}
