// A worker thread inherits no loader, so each starts here and lets tsx read the TypeScript that follows.
import { workerData } from "node:worker_threads";
import { register } from "tsx/esm/api";

register();
await import(workerData.module);
