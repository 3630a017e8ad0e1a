import { expect, test } from "vitest";
import { createApp } from "#server/app.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

const ask = (path: string, headers: Record<string, string> = {}) => createApp(emptyCollection()).request(path, { headers });

test("every file that a page names is served with its type", async () => {
  const app = createApp(emptyCollection());
  const page = await (await app.request("/prints")).text();
  const named = [...page.matchAll(/(?:href|src)="(\/assets\/[^"]+)"/g)].map((match) => match[1] ?? "");
  expect(named).toContain("/assets/htmx.js");
  for (const path of named) {
    const answer = await app.request(path);
    expect(answer.status, path).toBe(200);
    expect(answer.headers.get("content-type"), path).toMatch(/^(text\/(css|javascript); charset=utf-8|image\/svg\+xml)$/);
  }
});

test("the layers are declared before any style sheet uses them", async () => {
  const style = await (await ask("/assets/style.css")).text();
  const first = style.indexOf("@layer");
  expect(style.slice(first)).toMatch(/^@layer reset, tokens, base, layout, parts, pages, paper;/);
});

test("pages carry no inline script or style, which the policy would refuse", async () => {
  const page = await (await ask("/prints/new")).text();
  expect(page).not.toMatch(/<style|\sstyle=|\son[a-z]+="|javascript:/i);
  for (const script of page.match(/<script\b[^>]*>/g) ?? []) expect(script).toContain('src="/assets/');
});

test.each([
  "/assets/../app.ts",
  "/assets/..%2fapp.ts",
  "/assets/..%2f..%2f..%2fpackage.json",
  "/assets/%2e%2e/app.ts",
  "/assets/tokens.css",
  "/assets/",
  "/assets/style.css%00",
  "/assets/__proto__",
])("%s is not a file that anybody may have", async (path) => {
  expect((await ask(path)).status).toBe(404);
});

test("a file that has not changed is not sent again", async () => {
  const app = createApp(emptyCollection());
  const tag = (await app.request("/assets/style.css")).headers.get("etag") ?? "";
  expect(tag).toMatch(/^"[\w-]{43}"$/);
  const again = await app.request("/assets/style.css", { headers: { "If-None-Match": tag } });
  expect(again.status).toBe(304);
  expect(await again.text()).toBe("");
});

test("health is answered in plain text and never kept", async () => {
  const answer = await ask("/healthz");
  expect(await answer.text()).toBe("ready\n");
  expect(answer.headers.get("cache-control")).toBe("no-store");
});
