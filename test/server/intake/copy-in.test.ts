import { createHash, randomUUID } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, utimesSync, writeFileSync } from "node:fs";
import path from "node:path";
import { Readable } from "node:stream";
import { expect, test } from "vitest";
import { copyIn, plainName } from "#server/intake/copy-in.ts";
import { clearLeftovers, listLeftovers } from "#server/intake/leftovers.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

test("the bytes are copied whole and hashed (SHA-256 of abc: FIPS 180-4, appendix of examples)", async () => {
  const { folder } = emptyCollection();
  const copied = await copyIn(folder, Readable.from([Buffer.from("a"), Buffer.from("bc")]), "a.tif");
  if (!copied.ok) throw new Error("refused");
  expect(copied.value.sha256).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  expect([copied.value.bytes, readFileSync(copied.value.path, "utf8")]).toEqual([3, "abc"]);
});

test("an empty file is refused and leaves nothing", async () => {
  const { folder } = emptyCollection();
  const copied = await copyIn(folder, Readable.from([]), "a.tif");
  expect(copied).toMatchObject({ ok: false, refusals: [{ about: "a.tif", happened: "The file is empty." }] });
  expect(readdirSync(folder.incoming)).toEqual([]);
});

test("a file over the limit is stopped at the limit, refused, and leaves nothing", async () => {
  const { folder } = emptyCollection();
  let given = 0;
  const endless = Readable.from(
    (function* () {
      for (;;) {
        given += 1000;
        yield Buffer.alloc(1000);
      }
    })(),
  );
  const copied = await copyIn(folder, endless, "a.tif", 10_000);
  expect(copied).toMatchObject({ ok: false, refusals: [{ about: "a.tif", happened: expect.stringContaining("larger than") }] });
  expect(given).toBeLessThan(50_000);
  expect(readdirSync(folder.incoming)).toEqual([]);
});

test("a sending that breaks off is refused and leaves nothing", async () => {
  const { folder } = emptyCollection();
  const source = new Readable({
    read() {
      this.push(Buffer.alloc(100));
      this.destroy(Object.assign(new Error("aborted"), { code: "ECONNRESET" }));
    },
  });
  expect(await copyIn(folder, source, "a.tif")).toMatchObject({
    ok: false,
    refusals: [{ happened: expect.stringContaining("broke off") }],
  });
  expect(readdirSync(folder.incoming)).toEqual([]);
});

test("a source that cannot be read is refused in words", async () => {
  const { folder } = emptyCollection();
  const source = new Readable({
    read() {
      this.destroy(Object.assign(new Error("no"), { code: "EACCES" }));
    },
  });
  expect(await copyIn(folder, source, "a.tif")).toMatchObject({
    ok: false,
    refusals: [{ happened: expect.stringContaining("could not be read") }],
  });
});

test("what a dead process left half-copied goes; what a living one copies stays, unless it stood still for a day, and so does what a person put there", () => {
  const { folder } = emptyCollection();
  const put = (name: string, ageHours: number) => {
    const file = path.join(folder.incoming, name);
    writeFileSync(file, createHash("sha256").update(name).digest());
    const at = new Date(Date.now() - ageHours * 3_600_000);
    utimesSync(file, at, at);
  };
  const [alive, old, dead] = [process.pid, process.pid, 4_999_999].map((pid) => `${pid}-${randomUUID()}`) as [string, string, string];
  put(alive, 1);
  put(old, 25);
  put(dead, 0);
  put("grandmother.tif", 48);
  mkdirSync(path.join(folder.incoming, "a folder"));
  expect(listLeftovers(folder).sort()).toEqual([old, dead].sort());
  clearLeftovers(folder);
  expect(readdirSync(folder.incoming).sort()).toEqual([alive, "a folder", "grandmother.tif"].sort());
});

test.each([
  ["../../etc/passwd", "passwd"],
  ["C:\\scans\\front.tif", "front.tif"],
  ["front\u001b[31m\u0000.tif", "front [31m .tif"],
  // it would be shown as “frontexe.tif”
  ["front\u202efit.exe", "frontfit.exe"],
  ["\u2066a\u2069.tif", "a.tif"],
  ["صورة.tif", "صورة.tif"],
  ["", "file without a name"],
])("the file name %j is shown as “%s”", (given, shown) => {
  expect(plainName(given)).toBe(shown);
});
