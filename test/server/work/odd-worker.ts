import { parentPort } from "node:worker_threads";
import type { Job } from "#server/work/job.ts";

/** A thread that does with each capture what the name of its file says. */
parentPort?.on("message", (job: Job) => {
  if (job.kind !== "measure") return parentPort?.postMessage({ compared: [] });
  const { profileName: order } = job.known;
  if (order === "die") process.exit(7);
  if (order === "hang") for (;;);
  if (order === "answer nonsense")
    return parentPort?.postMessage({
      measured: { readings: [{ name: "skewDegrees", value: Number.NaN, reliability: "firm" }], outlines: [], durationMs: 1 },
    });
  if (order === "refuse") return parentPort?.postMessage({ unreadable: "The file is damaged. Add it again." });
  return parentPort?.postMessage({
    measured: { readings: [{ name: "skewDegrees", value: 1.5, reliability: "firm" }], outlines: [], durationMs: 1 },
  });
});
