import { createReadStream, readdirSync } from "node:fs";
import path from "node:path";
import { printInput } from "#domain/print/schema.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { createPrint } from "#server/actions/create-print.ts";
import { takeInCapture } from "#server/actions/take-in-capture.ts";
import { openCollection } from "#server/open-collection.ts";
import { startWork } from "#server/work/queue.ts";

/** Takes in every file of a folder, each for a print of its own, while measuring them, then ends: what the fault tests kill in the middle. */
async function intake(collection: string, folder: string): Promise<void> {
  const context = openCollection(collection);
  const names = readdirSync(folder).sort();
  // a second run finds its prints there
  for (const name of names) createPrint(context, printInput.parse({ objectNumber: path.parse(name).name }));
  const work = startWork(context, {
    threads: 1,
    leaseMs: 2000,
    onMeasured: (printId) => chooseMasters(context, { printIds: [printId] }),
  });
  console.log("open");
  for (const name of names) {
    const taken = await takeInCapture(context, { source: createReadStream(path.join(folder, name)), originalName: name });
    if (!taken.ok) throw new Error(taken.refusals[0]?.happened);
  }
  console.log("taken in");
  await work.idle();
  await work.stop();
  context.close();
}

const [collection, folder] = process.argv.slice(2);
if (!collection || !folder) throw new Error("give the collection and the folder of files");
void intake(collection, folder);
