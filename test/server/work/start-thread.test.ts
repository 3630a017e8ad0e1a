import { expect, onTestFinished, test } from "vitest";
import { startThread } from "#server/work/start-thread.ts";
import { Thread } from "#server/work/thread.ts";

const of = (name: string) => new URL(name, import.meta.url);

test("the program of a thread finds packages and our own modules, and knows where each of its modules lies", async () => {
  const worker = await startThread(of("./placed-worker.ts"), { workerData: "passed on" });
  onTestFinished(() => void worker.terminate());
  const told = await new Promise((resolve, reject) => worker.once("message", resolve).once("error", reject));
  expect(told).toEqual({ place: of("./placed-worker.ts").href, passed: "passed on", parsed: 4, middle: 2 });
});

test("a thread whose program cannot be read is a fault in words, and ends like every other", async () => {
  const thread = new Thread(of("./no-such-worker.ts"));
  expect(await thread.run({} as never)).toEqual({ fault: expect.stringMatching(/could not be started.*no-such-worker/s) });
  await thread.close();
});
