import { z } from "zod";

/**
 * Text as a form sends it: trimmed, line ends alike, a field that was not sent is empty. Control characters are left out: no keyboard types
 * them, a terminal would obey them, and XML cannot hold them.
 */
export const typed = (most: number) =>
  z
    .string()
    .default("")
    .transform((text) =>
      text
        .normalize("NFC")
        .replace(/\r\n?|\u0085/g, "\n")
        .replace(/[^\P{Cc}\n\t]/gu, "")
        .trim(),
    )
    .refine((text) => text.length <= most, `Keep this under ${most} letters.`);

/** One line; null when empty. */
export const line = (most: number) => typed(most).transform((text) => emptied(text.replace(/\s*\n\s*/g, " ")));

/** As many lines as wanted; null when empty. */
export const passage = (most: number) => typed(most).transform(emptied);

/** Why a person decided as they did; never empty. */
export const reasonGiven = (most: number) => typed(most).refine((text) => text !== "", "Say why, so that the next keeper understands.");

/** One entry a line, each once, without empty ones. */
export const entries = (mostEntries: number, mostLetters: number) =>
  typed(mostEntries * (mostLetters + 1))
    .transform((text) => [...new Set(text.split("\n").map((entry) => entry.trim().replace(/\s+/g, " ")))].filter((entry) => entry !== ""))
    .refine((list) => list.length <= mostEntries, `Keep this to ${mostEntries} lines.`)
    .refine((list) => list.every((entry) => entry.length <= mostLetters), `Keep each line under ${mostLetters} letters.`);

/** A length in mm with point or comma; null when empty. */
export const millimetres = (what: string, least: number, most: number) =>
  quantity(least, most, `Write ${what} in millimetres, from ${least} to ${most}, such as 88.5.`, "mm");

/** A number with point or comma, with or without its unit; null when empty. */
export const quantity = (least: number, most: number, message: string, unit = "") =>
  typed(20).transform((text, issues) => {
    if (text === "") return null;
    const bare = unit !== "" && text.toLowerCase().endsWith(unit.toLowerCase()) ? text.slice(0, -unit.length).trimEnd() : text;
    const number = Number(bare.replace(",", "."));
    if (/^\d{1,6}([.,]\d{1,3})?$/.test(bare) && number >= least && number <= most) return number;
    issues.addIssue({ code: "custom", message });
    return z.NEVER;
  });

/** One of a list, or null when nothing was chosen. */
export const chosen = <T extends string>(isKnown: (text: string) => text is T, message: string) =>
  typed(200).transform((text, issues) => {
    if (text === "") return null;
    if (isKnown(text)) return text;
    issues.addIssue({ code: "custom", message });
    return z.NEVER;
  });

const emptied = (text: string): string | null => (text === "" ? null : text);
