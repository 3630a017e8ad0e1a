#!/usr/bin/env node
// The program is TypeScript: tsx reads it, with this package's own settings wherever it is started from.
import { fileURLToPath } from "node:url";
import { register } from "tsx/esm/api";

register({ tsconfig: fileURLToPath(new URL("../../../tsconfig.json", import.meta.url)) });
const { main } = await import("./main.ts");
await main();
