import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { type Manifest, manifestShape } from "./manifest.ts";

/** Folder of the demo's capture files. */
export const DEMO_CAPTURES = fileURLToPath(new URL("./captures", import.meta.url));

/** @throws where the file is missing or not as `manifestShape` says */
export function readDemoManifest(): Manifest {
  return manifestShape.parse(JSON.parse(readFileSync(new URL("./manifest.json", import.meta.url), "utf8")));
}
