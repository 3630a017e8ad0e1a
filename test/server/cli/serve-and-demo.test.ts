import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { readdirSync, writeFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { expect, onTestFinished, test } from "vitest";
import { listObjectNumbers } from "#drizzle/queries/prints.ts";
import { openCollection } from "#server/open-collection.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { emptyFolder, solander } from "./command-line.ts";

const PROGRAM = fileURLToPath(new URL("../../../src/server/cli/solander.mjs", import.meta.url));

function started(args: readonly string[], env: Record<string, string>): ChildProcess {
  const child = spawn(process.execPath, [PROGRAM, ...args], { env: { ...process.env, ...env }, stdio: ["ignore", "pipe", "pipe"] });
  onTestFinished(() => {
    child.kill("SIGKILL");
  });
  return child;
}

async function firstWords(child: ChildProcess): Promise<string> {
  let said = "";
  for await (const chunk of child.stdout ?? []) {
    said += chunk;
    if (said.includes("}")) return said;
  }
  return said;
}

test("serve makes a new collection, answers where PORT says, and ends well when it is stopped", async () => {
  const collection = path.join(emptyFolder(), "our prints");
  const child = started(["serve", "--json"], { SOLANDER_COLLECTION: collection, PORT: "0" });
  const { url } = JSON.parse(await firstWords(child)) as { url: string };
  expect(url).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/);
  expect((await fetch(`${url}/healthz`)).status).toBe(200);
  child.kill("SIGINT");
  expect(await once(child, "exit")).toEqual([0, null]);
  expect(readdirSync(collection)).toContain("solander.db");
});

test("serving to other machines is refused until there is a sign-in, with 2", async () => {
  const { code, told } = await solander(["serve", "--collection", emptyFolder()], { env: { HOST: "0.0.0.0" } });
  expect(code).toBe(2);
  expect(told).toContain("there is no sign-in yet");
});

test("a port that is no port is refused with 2", async () => {
  expect(await solander(["serve", "--collection", emptyFolder(), "--port", "eighty"])).toMatchObject({ code: 2, answer: "" });
});

test("demo never fills a collection that is not a demo", async () => {
  const directory = emptyFolder();
  const ours = openCollection(directory, { name: "Our prints" });
  keptPrint(ours.db, "1978.001");
  ours.close();
  const { code, told } = await solander(["demo", "--no-serve", "--collection", directory]);
  expect(code).toBe(3);
  expect(told).toContain("holds a collection that is not the demo");
  const after = openCollection(directory);
  expect(listObjectNumbers(after.db)).toEqual(["1978.001"]);
  after.close();
});

test("demo leaves a folder alone that has other things in it", async () => {
  const directory = emptyFolder();
  writeFileSync(path.join(directory, "letter.txt"), "Dear Ana");
  expect(await solander(["demo", "--no-serve", "--collection", directory])).toMatchObject({ code: 3, answer: "" });
  expect(readdirSync(directory)).toEqual(["letter.txt"]);
});
