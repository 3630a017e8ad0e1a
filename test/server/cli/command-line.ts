import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { onTestFinished } from "vitest";
import type { ExitCode } from "#server/cli/exit-code.ts";
import { run } from "#server/cli/main.ts";

export type Ran = { code: ExitCode; answer: string; told: string };

/** Runs the command line in this process, without a screen. */
export async function solander(args: readonly string[], around: { env?: Record<string, string>; stop?: AbortSignal } = {}): Promise<Ran> {
  const ran = { answer: "", told: "" };
  const code = await run(args, {
    env: around.env ?? {},
    answer: (text) => {
      ran.answer += text;
    },
    tell: (text) => {
      ran.told += text;
    },
    screen: null,
    stop: around.stop ?? new AbortController().signal,
  });
  return { code, ...ran };
}

/** A folder of its own, gone when the test ends. */
export function emptyFolder(): string {
  const directory = mkdtempSync(path.join(tmpdir(), "solander-cli-"));
  onTestFinished(() => rmSync(directory, { recursive: true, force: true }));
  return directory;
}

/** A committed JSON Schema of what the command line answers programs, as text. */
export const committed = (name: string): string =>
  readFileSync(new URL(`../../../src/server/cli/schemas/${name}.schema.json`, import.meta.url), "utf8");

/** What is wrong with an answer by its committed schema, as an independent validator has it. */
export function problemsOf(name: string, report: unknown) {
  const validate = new Ajv2020({ strict: true }).compile(JSON.parse(committed(name)));
  return validate(report) ? [] : validate.errors;
}
