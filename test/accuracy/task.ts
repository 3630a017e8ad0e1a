/** One piece of a run: what is drawn for it is drawn and measured by whoever does it, and the answer is plain data. */
export type Task<Answer = unknown> = {
  /** tells it from every other of the run; its answer is kept by it */
  readonly name: string;
  readonly work: () => Answer | Promise<Answer>;
};

/** The answers to some of a run's tasks, in their order. */
export const answersOf = <Answer>(tasks: readonly Task<Answer>[], answers: ReadonlyMap<string, unknown>): Answer[] =>
  tasks.map(({ name }) => answers.get(name) as Answer);

export const nameOf = (...parts: readonly (string | number)[]): string => parts.join(" / ");
