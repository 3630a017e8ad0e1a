import { execFile } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { expect, test } from "vitest";
import { schema } from "#drizzle/client.ts";
import { openCollection } from "#server/open-collection.ts";
import { keptPrint } from "../../fixtures/captured-print.ts";
import { emptyFolder, solander } from "./command-line.ts";

const COMMANDS = [
  "serve",
  "demo",
  "add",
  "captures",
  "measure",
  "choose",
  "purposes",
  "recapture",
  "methods",
  "target",
  "plan",
  "worksheet",
  "due",
  "report",
  "climate",
  "care",
  "inventory",
  "check",
];
const PARTS: Readonly<Record<string, readonly string[]>> = {
  captures: ["list", "put-away", "take-back"],
  climate: ["import", "show"],
  worksheet: ["make", "list", "show", "put-away", "take-out"],
  purposes: ["list", "show", "export", "import"],
};
const PROGRAM = fileURLToPath(new URL("../../../src/server/cli/solander.mjs", import.meta.url));

test("help lists every command and what the exit codes mean", async () => {
  const { code, answer } = await solander(["--help"]);
  expect(code).toBe(0);
  for (const command of COMMANDS) expect(answer).toMatch(new RegExp(`^  ${command} `, "m"));
  expect(answer).toContain("70 a defect in the program");
});

const WITH_HELP = COMMANDS.flatMap((command) => PARTS[command]?.map((part) => `${command} ${part}`) ?? [command]);

test.each(WITH_HELP)("%s has help of its own that names the collection and the exit codes", async (command) => {
  const { code, answer } = await solander([...command.split(" "), "--help"]);
  expect(code).toBe(0);
  expect(answer).toContain("--collection <DIR>");
  expect(answer).toContain("SOLANDER_COLLECTION");
  expect(answer).toContain("--json");
  expect(answer).toContain("Exit codes:");
});

test("the commands are those that the README tells of", () => {
  const readme = readFileSync(new URL("../../../README.md", import.meta.url), "utf8");
  const told = [...readme.matchAll(/^\| `([a-z]+)` \|/gm)].map((match) => match[1]);
  expect(told.toSorted()).toEqual(COMMANDS.toSorted());
});

test.each([
  ["a command that does not exist", ["frame"], "unknown command"],
  ["an option that does not exist", ["choose", "--quickly"], "unknown option"],
  ["no collection", ["choose"], "--collection DIR"],
  ["a method that does not exist", ["add", "x.jpg", "--method", "drum", "--collection", "/tmp/none"], "Allowed choices"],
])("%s ends with 2 and says what was meant", async (_, args, said) => {
  const { code, answer, told } = await solander(args);
  expect(code).toBe(2);
  expect(told).toContain(said);
  expect(answer).toBe("");
});

test("a folder without a collection ends with 3 and is left as it was", async () => {
  const directory = emptyFolder();
  const { code, told } = await solander(["choose", "--collection", directory]);
  expect(code).toBe(3);
  expect(told).toContain(`There is no collection in ${directory}`);
  expect(readdirSync(directory)).toEqual([]);
});

test("a database of a newer program ends with 3 and is left as it was", async () => {
  const directory = emptyFolder();
  const context = openCollection(directory);
  context.db.$client.prepare("INSERT INTO applied_migrations (hash, made_at) VALUES ('from the future', 1)").run();
  context.close();
  const { code, told } = await solander(["inventory", "--collection", directory]);
  expect(code).toBe(3);
  expect(told).toContain("newer version of the program");
});

test("a process or a format that does not exist is refused with the list of those that do", async () => {
  const { code, told } = await solander(["inventory", "--process", "chromogenicc", "--collection", "anywhere"]);
  expect(code).toBe(2);
  expect(told).toMatch(/The processes are: .*chromogenic, /);
});

test("a file that is no database ends with 3 and says what to do", async () => {
  const directory = emptyFolder();
  writeFileSync(path.join(directory, "solander.db"), "this is not a database, and long enough to be looked at. ".repeat(40));
  const { code, told } = await solander(["inventory", "--collection", directory]);
  expect(code).toBe(3);
  expect(told).toContain("restore it from a backup");
});

test("the environment names the collection as well, and the option wins", async () => {
  const directory = emptyFolder();
  openCollection(directory).close();
  expect(await solander(["recapture"], { env: { SOLANDER_COLLECTION: directory } })).toMatchObject({ code: 0 });
  expect(await solander(["recapture", "--collection", "/nowhere"], { env: { SOLANDER_COLLECTION: directory } })).toMatchObject({ code: 3 });
});

test("a defect ends with 70 and says that files are as they were", async () => {
  const directory = emptyFolder();
  const context = openCollection(directory);
  keptPrint(context.db, "1978.001");
  context.db
    .update(schema.prints)
    .set({ people: "not a list" as unknown as string[] })
    .run();
  context.close();
  const { code, told } = await solander(["inventory", "--collection", directory]);
  expect(code).toBe(70);
  expect(told).toContain("defect in the program");
});

test("started from another folder, the program finds its own settings and answers", async () => {
  const elsewhere = emptyFolder();
  mkdirSync(path.join(elsewhere, "prints"));
  openCollection(path.join(elsewhere, "prints")).close();
  const { stdout } = await promisify(execFile)(process.execPath, [PROGRAM, "recapture", "--collection", "prints", "--json"], {
    cwd: elsewhere,
  });
  expect(JSON.parse(stdout)).toEqual([]);
});
