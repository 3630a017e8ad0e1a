import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { printInput } from "#domain/print/schema.ts";
import { schema } from "#drizzle/client.ts";
import { insertPrint } from "#drizzle/queries/prints.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { createApp } from "#server/app.ts";
import type { Context } from "#server/context.ts";
import { openCollection } from "#server/open-collection.ts";
import { GOOD_ENOUGH, measuredCapture } from "../fixtures/captured-print.ts";
import { random } from "../fixtures/picture-scenes.ts";

// Prints what pages that speak of the recapture list cost in a collection of 5,000 prints with three captures each: the
// quickest of some rounds, as a ratio to a bare query that reads every current choice. Run: npx tsx test/bench/overview-cost.ts

const PRINTS = 5000;
const CAPTURES_OF_EACH = 3;
const ROUNDS = 7;
const PAGES = ["/", "/prints", "/prints?recapture=needed", "/recapture", "/inventory"];

const folder = mkdtempSync(path.join(tmpdir(), "solander-bench-"));
const context = openCollection(folder);
try {
  fill(context);
  const bare = await quickest(() =>
    context.db.$client.prepare("select count(*), sum(length(sentence)) from choices where superseded_at is null").get(),
  );
  console.log(`bare query ${bare.toFixed(2)} ms`);
  const app = createApp(context);
  for (const page of PAGES) {
    const ms = await quickest(async () => {
      const answer = await app.request(page);
      if (answer.status !== 200) throw new Error(`${page} answered ${answer.status}`);
      return answer.text();
    });
    console.log(`${page.padEnd(26)} ${ms.toFixed(1).padStart(8)} ms  ${(ms / bare).toFixed(1).padStart(8)} × the bare query`);
  }
} finally {
  context.close();
  rmSync(folder, { recursive: true, force: true });
}

/** Every other print falls short; one in ten has nobody captured. */
function fill({ db }: Context): void {
  const printIds: number[] = [];
  db.transaction((tx) => {
    for (let print = 0; print < PRINTS; print++) {
      const input = printInput.parse({ objectNumber: `${1900 + Math.floor(print / 100)}.${print % 100}`, title: `Print ${print}` });
      printIds.push(insertPrint(tx, input, context.now()));
    }
    for (const [at, printId] of printIds.entries()) {
      if (at % 10 === 0) continue;
      const sampling = at % 2 === 0 ? 450 : 200 + 100 * random(at, 1, 1);
      for (let n = 0; n < CAPTURES_OF_EACH; n++) measuredCapture(tx, printId, { ...GOOD_ENOUGH, samplingPpi: sampling + n });
    }
  });
  chooseMasters(context);
  console.log(
    `${PRINTS} prints, ${db.select().from(schema.captures).all().length} captures, ${db.$client.prepare("select count(*) from choices").pluck().get()} choices; the quickest of ${ROUNDS} rounds`,
  );
}

async function quickest(work: () => unknown): Promise<number> {
  const times: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const start = performance.now();
    await work();
    times.push(performance.now() - start);
  }
  return Math.min(...times);
}
