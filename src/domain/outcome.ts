/**
 * What an action answers. An expected refusal is a value that says what happened, to which file
 * or field, and what to do; a thrown error means a defect or a broken disk.
 */
export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly refusals: readonly Refusal[] };

export type Refusal = {
  /** the form field or file name it is about; null when it is about the whole */
  readonly about: string | null;
  /** what happened, one sentence for the keeper */
  readonly happened: string;
  /** what to do now, one sentence for the keeper */
  readonly remedy: string;
};

export const done = <T>(value: T): Outcome<T> => ({ ok: true, value });

export const refused = (...refusals: readonly Refusal[]): { readonly ok: false; readonly refusals: readonly Refusal[] } => ({
  ok: false,
  refusals,
});
