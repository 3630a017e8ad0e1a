import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { expect, onTestFinished, test } from "vitest";
import { serve } from "#server/serve.ts";
import { emptyCollection } from "../fixtures/collection.ts";

test("the collection is served at this machine, and no longer after stop", async () => {
  const started = await serve(emptyCollection(), { port: 0 });
  if (!started.ok) throw new Error("not started");
  const { url, stop } = started.value;
  expect(url).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/);
  expect(await (await fetch(`${url}/healthz`)).text()).toBe("ready\n");
  await stop();
  await expect(fetch(`${url}/healthz`)).rejects.toThrow();
});

test("a form posted over the wire with a matching origin is taken", async () => {
  const started = await serve(emptyCollection(), { port: 0 });
  if (!started.ok) throw new Error("not started");
  onTestFinished(started.value.stop);
  const { url } = started.value;
  const send = (origin: string) =>
    fetch(`${url}/places`, {
      method: "POST",
      headers: { Origin: origin },
      body: new URLSearchParams({ kind: "box", name: "Box 1" }),
      redirect: "manual",
    });
  expect((await send("http://elsewhere.example")).status).toBe(403);
  expect((await send(url)).status).toBe(303);
});

test.each(["0.0.0.0", "192.168.1.20", "::", "archive.example"])("host %s is refused as long as there is no sign-in", async (host) => {
  const started = await serve(emptyCollection(), { port: 0, host });
  expect(started).toMatchObject({ ok: false, refusals: [{ about: "HOST" }] });
});

test.each([-1, 65_536, 1.5, Number.NaN])("port %d is refused in words", async (port) => {
  expect(await serve(emptyCollection(), { port })).toMatchObject({ ok: false, refusals: [{ about: "PORT" }] });
});

test("a port that is in use is refused in words", async () => {
  const other = createServer().listen(0, "127.0.0.1");
  onTestFinished(() => void other.close());
  await new Promise((resolve) => other.once("listening", resolve));
  const { port } = other.address() as AddressInfo;
  const started = await serve(emptyCollection(), { port });
  expect(started).toMatchObject({ ok: false, refusals: [{ about: "PORT", remedy: expect.stringContaining("PORT=") }] });
});
