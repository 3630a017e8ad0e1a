/** What a program that started this one can go by. */
export const EXIT = {
  done: 0,
  /** done, but something was refused, found wrong or left undone */
  fellShort: 1,
  /** the command was not understood */
  usage: 2,
  /** the collection cannot be opened */
  noCollection: 3,
  /** a defect in the program (EX_SOFTWARE of sysexits) */
  defect: 70,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** Ends a command with a plain message on standard error. */
export class Ending extends Error {
  override name = "Ending";
  readonly code: ExitCode;

  constructor(code: ExitCode, message: string) {
    super(message);
    this.code = code;
  }
}
