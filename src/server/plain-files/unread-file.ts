import type { Refusal } from "#domain/outcome.ts";

/** What is said of a file or folder that the system would not open, whatever it was to be read for. */
export const unreadFile = (about: string, error: unknown): Refusal => ({
  about,
  happened: whyNot(error),
  remedy: "Check the name and the rights, and try again.",
});

function whyNot(error: unknown): string {
  const code = codeOf(error);
  if (code === "ENOENT" || code === "ENOTDIR") return "There is no such file or folder.";
  if (code === "EACCES" || code === "EPERM") return "It may not be read.";
  return `It cannot be read (${error instanceof Error ? error.message : String(error)}).`;
}

const codeOf = (error: unknown) => (error instanceof Error && "code" in error ? error.code : undefined);
