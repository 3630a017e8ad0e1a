export type ShownFixity = { readonly checkedAt: string; readonly outcome: "unchanged" | "changed" | "missing" | "unreadable" };

/** What a check found of a file, and what to do. */
export const FIXITY_WORDS: Readonly<Record<ShownFixity["outcome"], string>> = {
  unchanged: "Unchanged",
  changed:
    "Changed: the file is not what was taken in. Add the file again from where it came from, or bring it back from a copy of the collection",
  missing: "Missing: the file is gone. Add the file again from where it came from, or bring it back from a copy of the collection",
  unreadable: "Could not be read. Look at the disk, then check again",
};
