import type { Refusal } from "#domain/outcome.ts";

/** Where a command reads its surroundings and says what it has to say; replaced in tests. */
export type Terminal = {
  readonly env: Readonly<Record<string, string | undefined>>;
  /** standard output: the answer, and nothing else */
  readonly answer: (text: string) => void;
  /** standard error: progress, refusals, advice */
  readonly tell: (text: string) => void;
  /** where a progress bar can be drawn; null where standard error is no screen */
  readonly screen: NodeJS.WriteStream | null;
  /** aborted when the keeper asks to stop (Ctrl-C) */
  readonly stop: AbortSignal;
};

/** A file's name as a terminal may show it: names may hold line ends, and signs that a terminal would obey. */
export const shownName = (file: string): string => file.replaceAll(/\p{Cc}+/gu, "�");

/** A refusal as one line: what it is about, what happened, what to do. */
export const refusalLine = ({ about, happened, remedy }: Refusal): string =>
  `${about === null ? "" : `${shownName(about)}: `}${happened} ${remedy}`;

/** One JSON value on standard output, for the program that asked. */
export const answerJson = (terminal: Terminal, value: unknown): void => terminal.answer(`${JSON.stringify(value, null, 2)}\n`);

/** “1 file”, “3 files” */
export const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;
