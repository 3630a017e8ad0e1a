import { parentPort, workerData } from "node:worker_threads";
import { z } from "zod";
import { median } from "#domain/measure/numbers/robust.ts";

/** Tells what it finds around it. */
parentPort?.postMessage({ place: import.meta.url, passed: workerData, parsed: z.number().parse(4), middle: median([3, 1, 2]) });
