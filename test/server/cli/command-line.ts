import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
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
