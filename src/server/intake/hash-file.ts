import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";

/** SHA-256 of a file's bytes, as 64 hexadecimal digits. Rejects with the disk's error. */
export async function hashFile(file: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const chunk of createReadStream(file)) hash.update(chunk as Buffer);
  return hash.digest("hex");
}
