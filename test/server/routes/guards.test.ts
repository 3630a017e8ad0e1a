import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import type { Hono } from "hono";
import { expect, test } from "vitest";
import { createApp } from "#server/app.ts";
import { FORM_BYTES } from "#server/security/bounded-bodies.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const VIEWS = fileURLToPath(new URL("../../../src/views/", import.meta.url));
const SAME_SITE = { "Sec-Fetch-Site": "same-origin" };

/** Each address the program answers, with 1 for every number in it. */
function addresses(app: Hono): { method: string; path: string }[] {
  return app.routes
    .filter((route) => route.method !== "ALL")
    .map((route) => ({ method: route.method, path: route.path.replace(/:[a-zA-Z]+(\{[^}]*\})?/g, "1") }));
}

test("every route, found or not, answers with the whole set of guarding headers", async () => {
  const app = createApp(emptyCollection());
  const all = [...addresses(app), { method: "GET", path: "/nowhere" }];
  expect(all.length, "routes must be walked for this test to mean anything").toBeGreaterThan(10);
  for (const { method, path } of all) {
    const answer = await app.request(path, { method, headers: SAME_SITE });
    const about = `${method} ${path}`;
    expect(answer.headers.get("content-security-policy"), about).toBe(
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; font-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    );
    expect(answer.headers.get("x-content-type-options"), about).toBe("nosniff");
    expect(answer.headers.get("referrer-policy"), about).toBe("same-origin");
    expect(answer.headers.get("x-frame-options"), about).toBe("DENY");
    expect(answer.headers.get("cross-origin-resource-policy"), about).toBe("same-origin");
    await answer.body?.cancel();
  }
});

test("every route that changes something refuses a form sent from another site", async () => {
  const app = createApp(emptyCollection());
  const changing = addresses(app).filter(({ method }) => method !== "GET");
  expect(changing.length, "changing routes must exist for this test to mean anything").toBeGreaterThan(4);
  for (const { method, path } of changing) {
    for (const contentType of ["application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "text/plain"]) {
      const answer = await app.request(path, {
        method,
        headers: { "Sec-Fetch-Site": "cross-site", Origin: "https://elsewhere.example", "Content-Type": contentType },
        body: "title=Taken",
      });
      expect(answer.status, `${method} ${path} ${contentType}`).toBe(403);
    }
  }
});

test.each([
  ["another site", { "Sec-Fetch-Site": "cross-site", Origin: "https://elsewhere.example" }, 403],
  ["a sister site", { "Sec-Fetch-Site": "same-site", Origin: "http://sister.localhost" }, 403],
  ["nobody says where", {}, 403],
  ["an opaque origin", { Origin: "null" }, 403],
  ["the same port of another host", { Origin: "http://127.0.0.1" }, 403],
  ["this origin, from a browser without Sec-Fetch-Site", { Origin: "http://localhost" }, 303],
  ["this site", { "Sec-Fetch-Site": "same-origin" }, 303],
])("a form sent from %s is answered with the right status", async (_from, headers, status) => {
  const app = createApp(emptyCollection());
  const answer = await app.request("/places", {
    method: "POST",
    headers: { ...headers, "Content-Type": "application/x-www-form-urlencoded" },
    body: "kind=box&name=Box+1",
  });
  expect(answer.status).toBe(status);
  const page = await (await app.request("/places")).text();
  expect(page.includes("Box 1")).toBe(status === 303);
});

test.each([
  ["localhost:4173", 200],
  ["127.0.0.1:4173", 200],
  ["[::1]:4173", 200],
  ["LOCALHOST", 200],
  ["rebound.example:4173", 421],
  ["127.0.0.1.rebound.example", 421],
  ["localhost:4173, rebound.example", 421],
  ["localhost@rebound.example", 421],
  ["", 421],
])("a request for host “%s” is answered with %i", async (host, status) => {
  const app = createApp(emptyCollection());
  expect((await app.request("http://localhost/healthz", { headers: { Host: host } })).status).toBe(status);
});

test("what a page of another site asks for in its own pages is refused at every route, whatever it is", async () => {
  const app = createApp(emptyCollection());
  const shown = addresses(app).filter(({ method }) => method === "GET");
  for (const site of ["cross-site", "same-site"])
    for (const { path } of shown) {
      const asked = { "Sec-Fetch-Site": site, "Sec-Fetch-Mode": "no-cors", "Sec-Fetch-Dest": "image" };
      expect((await app.request(path, { headers: asked })).status, `${site} ${path}`).toBe(403);
    }
});

test.each([
  [
    "a link on another site that is followed",
    { "Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document" },
    200,
  ],
  ["a frame on another site", { "Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "iframe" }, 403],
  ["an address that was typed", { "Sec-Fetch-Site": "none", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document" }, 200],
  ["a program that is no browser", {}, 200],
])("%s is answered with the right status", async (_from, headers, status) => {
  const app = createApp(emptyCollection());
  const answer = await app.request("/prints", { headers });
  expect(answer.status).toBe(status);
  const page = await answer.text();
  expect(page.includes("This was asked for from another site")).toBe(status === 403);
  // a page was asked for, no form sent
  expect(page).not.toContain("This form was sent");
});

test("every form that is not whole is told so, and is no defect of the program", async () => {
  const app = createApp(emptyCollection());
  for (const { method, path } of addresses(app).filter((each) => each.method === "POST")) {
    const answer = await app.request(path, {
      method,
      headers: { ...SAME_SITE, "Content-Type": "multipart/form-data" },
      body: "no boundary, no end",
    });
    expect(answer.status, `${method} ${path}`).toBeLessThan(500);
  }
  const answer = await app.request("/places", {
    method: "POST",
    headers: { ...SAME_SITE, "Content-Type": "multipart/form-data" },
    body: "x",
  });
  expect(answer.status).toBe(400);
  expect(await answer.text()).toContain("no whole form");
});

test.each(["/prints", "/inventory", "/inventory.csv", "/care", "/care.csv", "/labels"])(
  "a search for control characters at %s finds nothing and breaks nothing",
  async (path) => {
    const answer = await createApp(emptyCollection()).request(`${path}?search=a%00b%1B%5B31m%22`);
    expect(answer.status).toBe(200);
    await answer.body?.cancel();
  },
);

test("a form of one megabyte is read, and one byte more is refused before it is read", async () => {
  const app = createApp(emptyCollection());
  const send = (bytes: number) =>
    app.request("/places", {
      method: "POST",
      headers: { ...SAME_SITE, "Content-Type": "application/x-www-form-urlencoded", "Content-Length": String(bytes) },
      body: "name=".padEnd(bytes, "x"),
    });
  expect((await send(FORM_BYTES)).status).toBe(422);
  const answer = await send(FORM_BYTES + 1);
  expect(answer.status).toBe(413);
  expect(await answer.text()).toContain("what was typed is still there");
});

/** Where the forms of all pages send files, with 1 for every number. */
const filesSentTo = readdirSync(VIEWS, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".tsx"))
  .flatMap((name) => [
    ...readFileSync(path.join(VIEWS, name), "utf8").matchAll(/<form[^>]*?action=(?:"([^"]+)"|\{`([^`]+)`\})[^>]*multipart/g),
  ])
  .map(([, plain, filled]) => (plain ?? filled ?? "").replaceAll(/\$\{[^}]*\}/g, "1"));

test("every form that takes files takes more than a form of words may hold", async () => {
  expect(filesSentTo.length, "forms must be found for this test to mean anything").toBeGreaterThan(3);
  const app = createApp(emptyCollection());
  for (const address of filesSentTo) {
    const body = new FormData();
    body.set("picture", new File([new Uint8Array(FORM_BYTES + 1)], "sheet.tif"));
    expect((await app.request(address, { method: "POST", headers: SAME_SITE, body })).status, address).not.toBe(413);
  }
});

test("a body that does not say its length is counted as it comes", async () => {
  const app = createApp(emptyCollection());
  let sent = 0;
  const endless = new ReadableStream<Uint8Array>({
    pull(controller) {
      sent += 65_536;
      controller.enqueue(new Uint8Array(65_536).fill(120));
    },
  });
  const request = new Request("http://localhost/places", {
    method: "POST",
    headers: { ...SAME_SITE, "Content-Type": "application/x-www-form-urlencoded" },
    body: endless,
    duplex: "half",
  } as RequestInit);
  expect((await app.request(request)).status).toBe(413);
  expect(sent).toBeLessThan(2 * FORM_BYTES);
});
