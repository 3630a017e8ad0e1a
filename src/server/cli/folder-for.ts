import { access, constants, mkdir } from "node:fs/promises";
import { Ending, EXIT } from "./exit-code.ts";

/** Makes a folder that the keeper named for what will be written, before any long work is begun for it. */
export async function folderFor(folder: string): Promise<string> {
  try {
    await mkdir(folder, { recursive: true });
    await access(folder, constants.W_OK);
    return folder;
  } catch {
    throw new Ending(
      EXIT.usage,
      `Nothing can be written into ${folder}: it is no folder, or may not be made or changed. Choose another place.`,
    );
  }
}
