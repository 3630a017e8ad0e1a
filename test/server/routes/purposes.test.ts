import type { Hono } from "hono";
import { expect, test } from "vitest";
import { aimFileSchema } from "#domain/aim/aim-file.ts";
import { typedAim } from "#domain/aim/typed-aim.ts";
import { findAim } from "#drizzle/queries/aims.ts";
import { chooseMasters } from "#server/actions/choose-masters.ts";
import { copyPurpose } from "#server/actions/create-purpose.ts";
import { createApp } from "#server/app.ts";
import { GOOD_ENOUGH, keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const send = (app: Hono, path: string, fields: Record<string, string>) =>
  app.request(path, { method: "POST", headers: { "Sec-Fetch-Site": "same-origin" }, body: new URLSearchParams(fields) });

function withCopy() {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.002", { title: "Weir <in> winter" });
  measuredCapture(context.db, printId, { ...GOOD_ENOUGH, samplingPpi: 310 }, { fileName: "coarse.tif" });
  copyPurpose(context, { key: "preservation-master", name: "Walls" });
  chooseMasters(context);
  const app = createApp(context);
  const aim = findAim(context.db, "own-walls");
  if (!aim) throw new Error("no copy");
  return { context, app, printId, typed: typedAim(aim) };
}

test("the list tells ready-made from own, and a ready-made one offers a copy and no change", async () => {
  const { app } = withCopy();
  const list = await (await app.request("/purposes")).text();
  expect(list).toContain('href="/purposes/own-walls"');
  expect(list.match(/Ready-made\./g)).toHaveLength(3);
  const ready = await (await app.request("/purposes/preservation-master")).text();
  expect(ready).toContain('action="/purposes/preservation-master/copy"');
  expect(ready).not.toContain("/edit");
  expect((await app.request("/purposes/preservation-master/edit")).status).toBe(404);
  expect((await send(app, "/purposes/preservation-master", { name: "x" })).status).toBe(404);
});

test("looking says what would change and saves nothing; the same fields saved make version 2, and version 1 stays readable", async () => {
  const { context, app, printId, typed } = withCopy();
  const fields = { ...typed, "limits.samplingPpi.requiredAtLeast": "300", changeNote: "Walls forgive." };
  const looked = await send(app, "/purposes/own-walls", { ...fields, act: "look" });
  const html = await looked.text();
  expect(looked.status).toBe(200);
  expect(html).toContain("1 of 1 choice would change.");
  expect(html).toContain("Now: none is good enough");
  expect(html).toContain("Then: coarse.tif");
  expect(html).toContain(`href="/prints/${printId}"`);
  expect(html).toContain("Weir &lt;in&gt; winter");
  expect(html).toContain('value="300"');
  expect(findAim(context.db, "own-walls")?.version).toBe(1);
  const saved = await send(app, "/purposes/own-walls", fields);
  expect(saved.headers.get("location")).toBe("/purposes/own-walls?done=aim-saved");
  const now = await (await app.request("/purposes/own-walls")).text();
  expect(now).toContain("at least 300 ppi");
  expect(now).toContain("Walls forgive.");
  const before = await (await app.request("/purposes/own-walls/versions/1")).text();
  expect(before).toContain("at least 392 ppi");
  expect(before).toContain("Version 1, as it was");
  // a copy is always one of the version that holds now
  expect(now).toContain('action="/purposes/own-walls/copy"');
  expect(before).not.toContain('action="/purposes/own-walls/copy"');
  expect((await app.request("/purposes/own-walls/versions/3")).status).toBe(404);
});

test("looking reads no print once nobody waits for its answer any more", async () => {
  const { app, typed } = withCopy();
  const look = async (signal: AbortSignal) => {
    const asked = new Request("http://localhost/purposes/own-walls", {
      method: "POST",
      headers: { "Sec-Fetch-Site": "same-origin" },
      body: new URLSearchParams({ ...typed, "limits.samplingPpi.requiredAtLeast": "300", act: "look" }),
      signal,
    });
    return (await app.fetch(asked)).text();
  };
  expect(await look(new AbortController().signal)).toContain("1 of 1 choice would change.");
  expect(await look(AbortSignal.abort())).not.toContain("1 of 1 choice would change.");
});

test("a refused form keeps what was typed, names the field, and foretells nothing", async () => {
  const { app, typed } = withCopy();
  const refused = await send(app, "/purposes/own-walls", {
    ...typed,
    "limits.samplingPpi.best": "many",
    "limits.noiseDeltaL.weight": "300",
  });
  const html = await refused.text();
  expect(refused.status).toBe(422);
  expect(html).toContain('value="many"');
  expect(html).toContain('href="#field-limits.samplingPpi.best"');
  expect(html).toContain('href="#field-limits.noiseDeltaL.weight"');
  expect(html).toContain("nothing can be foretold");
});

test("every field of the form has a label, and each measure its unit and meaning", async () => {
  const { app } = withCopy();
  const html = await (await app.request("/purposes/own-walls/edit")).text();
  const ids = [...html.matchAll(/<(?:input|textarea)[^>]* id="([^"]+)"/g)].map(([, id]) => id);
  expect(ids.length).toBeGreaterThan(60);
  for (const id of ids) expect(html).toContain(`for="${id}"`);
  expect(html).toContain("Pixels per inch of the print itself");
});

test("who saves second is told and keeps their text; a second copy under one name is refused where the name stands", async () => {
  const { app, typed } = withCopy();
  await send(app, "/purposes/own-walls", { ...typed, "limits.samplingPpi.requiredAtLeast": "300" });
  const late = await send(app, "/purposes/own-walls", { ...typed, "limits.samplingPpi.requiredAtLeast": "310" });
  expect(late.status).toBe(409);
  expect(await late.text()).toContain('value="310"');
  const copy = await send(app, "/purposes/screen/copy", { name: "walls" });
  expect(copy.status).toBe(422);
  expect(await copy.text()).toContain("There is already a purpose called Walls.");
  expect((await send(app, "/purposes/screen/copy", { name: " " })).status).toBe(422);
});

test("within a sentence a name of the keeper's own stays as it was written", async () => {
  const { app } = withCopy();
  const sheet = async (purpose: string) => {
    const made = await send(app, "/work-sheets", { purpose });
    return (await app.request(made.headers.get("location") ?? "")).text();
  };
  expect(await sheet("own-walls")).toContain("For Walls, made");
  expect(await sheet("preservation-master")).toContain("For preservation master, made");
});

test("an aim is handed on as a file that the program reads again", async () => {
  const { app } = withCopy();
  const answer = await app.request("/purposes/own-walls/aim.json");
  expect(answer.headers.get("content-type")).toContain("application/json");
  expect(aimFileSchema.safeParse(await answer.json()).success).toBe(true);
  expect((await app.request("/purposes/own-walls/aim.json?version=7")).status).toBe(404);
});

test("a purpose set aside leaves the print's page, and can be taken up again", async () => {
  const { app, printId } = withCopy();
  const page = async () => (await app.request(`/prints/${printId}`)).text();
  expect(await page()).toContain('id="master-front-own-walls"');
  await send(app, "/purposes/own-walls/aside", {});
  expect(await page()).not.toContain('id="master-front-own-walls"');
  await send(app, "/purposes/own-walls/take-up", {});
  expect(await page()).toContain('id="master-front-own-walls"');
  expect((await send(app, "/purposes/screen/aside", {})).status).toBe(404);
});
