import { existsSync, readdirSync, rmSync, statSync } from "node:fs";
import path from "node:path";
import type { CollectionFolder } from "../collection-folder.ts";

/**
 * Files half copied in by a process that is no more. One that still runs keeps its own.
 * Their sources were never told that they were taken in, so nothing is lost with them.
 */
export function listLeftovers(folder: CollectionFolder): string[] {
  return readdirSync(folder.incoming, { withFileTypes: true })
    .filter((entry) => entry.isFile() && isHalfCopy(entry.name))
    .map(({ name }) => name)
    .filter((name) => !isAlive(Number.parseInt(name, 10)) || isOld(path.join(folder.incoming, name)));
}

export function clearLeftovers(folder: CollectionFolder): void {
  for (const name of listLeftovers(folder)) rmSync(path.join(folder.incoming, name), { force: true });
  for (const each of listHalfLaid(folder)) rmSync(each, { recursive: true, force: true });
}

/** Folders of sides half laid on each other by a process that is no more: what is laid, a dot, and a name like that of a half copy. */
function listHalfLaid(folder: CollectionFolder): string[] {
  const laid = path.join(folder.derived, "laid");
  if (!existsSync(laid)) return [];
  return readdirSync(laid)
    .map((name) => ({ file: path.join(laid, name), half: name.slice(name.lastIndexOf(".") + 1) }))
    .filter(({ file, half }) => isHalfCopy(half) && (!isAlive(Number.parseInt(half, 10)) || isOld(file)))
    .map(({ file }) => file);
}

/** Named as copy-in.ts names it: what a person put there is not touched. */
export const isHalfCopy = (name: string): boolean => /^\d+-[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(name);

/** Process numbers come round again; a copy that stood still for a day is nobody's. */
const OLD_MS = 24 * 3600 * 1000;
const isOld = (file: string): boolean => Date.now() - (statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? Date.now()) > OLD_MS;

function isAlive(pid: number): boolean {
  if (!Number.isSafeInteger(pid) || pid < 1) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}
