import { writeFileSync } from "node:fs";
import { Ending, EXIT } from "./exit-code.ts";

/** Writes an answer to a file that the keeper named; a file that is there stays, unless it may be replaced. */
export function writeOut(file: string, content: string | Uint8Array, overwrite: boolean): void {
  try {
    writeFileSync(file, content, { flag: overwrite ? "w" : "wx" });
  } catch (error) {
    const code = error instanceof Error && "code" in error ? error.code : undefined;
    if (code === "EEXIST") throw new Ending(EXIT.usage, `There is a file ${file} already. Choose another name, or add --overwrite.`);
    if (code === "ENOENT") throw new Ending(EXIT.usage, `The folder of ${file} does not exist. Make it first, or choose another.`);
    if (code === "EACCES" || code === "EISDIR" || code === "EROFS")
      throw new Ending(EXIT.usage, `${file} may not be written. Choose another place.`);
    throw error;
  }
}
