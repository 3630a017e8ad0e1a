import { expect, test } from "vitest";
import { showProgress } from "#server/cli/progress.ts";
import type { Terminal } from "#server/cli/terminal.ts";

function listening(): { terminal: Terminal; said: string[] } {
  const said: string[] = [];
  const terminal = { env: {}, answer: () => {}, tell: (text: string) => said.push(text), screen: null, stop: new AbortController().signal };
  return { terminal, said };
}

test("without a screen, progress is a line now and then: the first and the last, not every step", () => {
  const { terminal, said } = listening();
  const progress = showProgress(terminal, "Measuring");
  for (let done = 0; done <= 500; done++) progress.show(done, 500);
  progress.end();
  expect(said).toEqual(["Measuring: 0 of 500\n", "Measuring: 500 of 500\n"]);
});

test("with nothing to do, nothing is said", () => {
  const { terminal, said } = listening();
  const progress = showProgress(terminal, "Measuring");
  progress.show(0, 0);
  progress.show(0, 0);
  expect(said).toEqual([]);
});
