import { readFile } from "node:fs/promises";
import { fileURLToPath, pathToFileURL } from "node:url";
import { Worker, type WorkerOptions } from "node:worker_threads";
import { build, type Plugin } from "esbuild";

/** Starts a thread that runs a TypeScript module. Rejects where the module cannot be read. */
export const startThread = async (module: URL, options: WorkerOptions = {}): Promise<Worker> =>
  // a loader that this process was started with is not needed in it
  new Worker(await programOf(module), { ...options, eval: true, execArgv: [] });

const programs = new Map<string, Promise<string>>();

/** What a module runs, as one script for Node. Kept for the next thread; built anew after it failed. */
export function programOf(module: URL): Promise<string> {
  const kept = programs.get(module.href) ?? putTogether(module);
  programs.set(module.href, kept);
  kept.catch(() => programs.delete(module.href));
  return kept;
}

/**
 * The module with all of ours that it imports, as one script; packages are found from where the module lies. A thread that reads
 * some two hundred modules one by one takes several times as long until it is ready.
 */
async function putTogether(module: URL): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(module)],
    bundle: true,
    packages: "external",
    platform: "node",
    format: "cjs",
    target: `node${process.versions.node}`,
    banner: { js: `require = require("node:module").createRequire(${JSON.stringify(module.href)});` },
    plugins: [OWN_PLACES],
    define: { "import.meta.url": "ownPlace" },
    write: false,
    logLevel: "silent",
  });
  return outputFiles[0]?.text as string;
}

/** Each module goes on knowing where it lies. */
const OWN_PLACES: Plugin = {
  name: "own-places",
  setup: ({ onLoad }) =>
    onLoad({ filter: /\.ts$/ }, async ({ path }) => ({
      contents: `const ownPlace = ${JSON.stringify(pathToFileURL(path).href)}; ${await readFile(path, "utf8")}`,
      loader: "ts",
    })),
};
