import { createReadStream, readdirSync } from "node:fs";
import path from "node:path";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { openCollection } from "#server/open-collection.ts";
import { startWork } from "#server/work/queue.ts";

/** Takes in every file of a folder while measuring them, then ends: what the fault tests kill in the middle. */
const [collection, folder] = process.argv.slice(2);
if (!collection || !folder) throw new Error("give the collection and the folder of files");
const context = openCollection(collection);
const work = startWork(context, { threads: 1, leaseMs: 2000 });
console.log("open");
for (const name of readdirSync(folder).sort()) {
  const taken = await takeInCapture(context, { source: createReadStream(path.join(folder, name)), originalName: name });
  if (!taken.ok) throw new Error(taken.refusals[0]?.happened);
}
console.log("taken in");
await work.idle();
await work.stop();
context.close();
