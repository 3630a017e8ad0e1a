import { allTasks } from "./tasks.ts";
import type { Done } from "./work-through.ts";

// Does the tasks it is sent by name, one at a time; started by work-through.ts with the seeds as its words.

const tasks = new Map(allTasks(process.argv.slice(2).map(Number)).map((task) => [task.name, task]));

process.on("message", async (name: string) => {
  const task = tasks.get(name);
  if (!task) throw new Error(`no task is called "${name}"`);
  const before = process.cpuUsage();
  const answer = await task.work();
  const { user, system } = process.cpuUsage(before);
  process.send?.({ name, answer, cpuMs: (user + system) / 1000 } satisfies Done);
});
process.on("disconnect", () => process.exit());
