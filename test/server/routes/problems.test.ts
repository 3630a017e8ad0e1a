import { expect, test, vi } from "vitest";
import { createApp } from "#server/app.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

test("an address that leads nowhere gets a page that says what to do", async () => {
  const app = createApp(emptyCollection());
  const answer = await app.request("/prints/4711/edit");
  expect(answer.status).toBe(404);
  const page = await answer.text();
  expect(page).toContain("There is nothing at this address");
  expect(page).toContain('href="/bin"');
  expect(page).toContain("Test collection");
});

test("a fault of the program shows nothing of its inside, and tells the terminal", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  const told = vi.spyOn(console, "error").mockImplementation(() => {});
  context.db.$client.exec("ALTER TABLE places RENAME TO secret_table");
  const answer = await app.request("/prints");
  expect(answer.status).toBe(500);
  const page = await answer.text();
  expect(page).toContain("what was saved before is safe");
  expect(page).not.toMatch(/SQLITE|no such table|secret_table|node_modules|\.ts:/i);
  expect(told).toHaveBeenCalledOnce();
  told.mockRestore();
});

test("the page for a fault comes even when the database does not answer at all", async () => {
  const context = emptyCollection();
  const app = createApp(context);
  const told = vi.spyOn(console, "error").mockImplementation(() => {});
  context.db.$client.close();
  const answer = await app.request("/healthz");
  expect(answer.status).toBe(500);
  expect(await answer.text()).toContain("Something went wrong");
  told.mockRestore();
});
