import { parentPort } from "node:worker_threads";
import type { Reading } from "#domain/measure/reading.ts";
import type { Answer, Job } from "#server/work/job.ts";

/** Typed, so that a thread that answers too little is told when it is compiled. */
const answer = (message: Answer) => parentPort?.postMessage(message);

const measured = (value: number): Answer => {
  const reading: Reading = { name: "skewDegrees", value, reliability: "firm" };
  return { measured: { readings: [reading], outlines: [], fingerprints: { print: null, frame: null }, durationMs: 1 } };
};

/** A thread that does with each capture what the name of its file says. */
parentPort?.on("message", (job: Job) => {
  if (job.kind !== "measure") return answer({ compared: [] });
  const { profileName: order } = job.known;
  if (order === "die") process.exit(7);
  if (order === "hang") for (;;);
  if (order === "answer nonsense") return answer(measured(Number.NaN));
  if (order === "refuse") return answer({ unreadable: "The file is damaged. Add it again." });
  return answer(measured(1.5));
});
