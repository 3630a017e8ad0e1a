import { readdirSync } from "node:fs";
import path from "node:path";
import { eq } from "drizzle-orm";
import { expect, test } from "vitest";
import { correlation } from "#domain/measure/laying/detail-plane.ts";
import { schema } from "#drizzle/client.ts";
import { setSaidOutline } from "#drizzle/queries/captures.ts";
import { layingEnded } from "#server/actions/lay-side-of-print.ts";
import { createApp } from "#server/app.ts";
import { sharp } from "#server/images/policy.ts";
import { keptPrint, measuredCapture } from "../../fixtures/captured-print.ts";
import { SMALL } from "../../fixtures/captured-sheet.ts";
import { emptyCollection } from "../../fixtures/collection.ts";
import { dotsSeenMm, dotted, drawCapture, keepCapture, quantile, servedGrey, toldIn } from "../../fixtures/laid-captures.ts";

const words = (html: string) => html.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");
const SIZE = { sheetWidthMm: SMALL.widthMm, sheetHeightMm: SMALL.heightMm };

/** Grey values of a picture as served, about their mean. */
async function greyOf(app: ReturnType<typeof createApp>, address: string): Promise<Float32Array> {
  const answer = await app.request(address);
  const grey = Float32Array.from(
    await sharp(Buffer.from(await answer.arrayBuffer()))
      .greyscale()
      .raw()
      .toBuffer(),
  );
  const mean = grey.reduce((sum, value) => sum + value, 0) / grey.length;
  return grey.map((value) => value - mean);
}

test("captures are laid when first asked for; then they stand at one scale, without a script too, and go to nobody whom they do not concern", async () => {
  const context = emptyCollection();
  const printId = keptPrint(context.db, "1978.001", SIZE);
  const one = drawCapture({ seed: 51, noiseSeed: 4, turnDeg: 2, ppi: 200, defects: [dotted] });
  const other = drawCapture({ seed: 51, noiseSeed: 5, turnDeg: -2, ppi: 160, keystoneDown: 0.04, defects: [dotted] });
  const id = await keepCapture(context, printId, one, "fine.png");
  await keepCapture(context, printId, other, "coarse.png");
  const bare = measuredCapture(context.db, printId, {}, { fileName: "no-outline.tif" });
  const app = createApp(context);
  const get = async (query = "") => (await app.request(`/prints/${printId}/compare${query}`)).text();

  expect(await (await app.request(`/prints/${printId}`)).text()).toContain(`href="/prints/${printId}/compare?side=front"`);
  const first = await get();
  expect(words(first)).toContain("Finding how the 3 captures lie on each other");
  // without a script too it goes on by itself, and only while it has to
  expect(first).toContain('<noscript><meta http-equiv="refresh" content="3"');
  expect(first).toContain(`<a href="/prints/${printId}/compare">Look again</a>`);
  await layingEnded();

  // strange choices are as if nothing were chosen
  const page = await get(`?capture=-1&capture=${"9".repeat(30)}&capture=x&side=up`);
  const shown = [...page.matchAll(/<img src="([^"]+whole\.jpg)" width="(\d+)" height="(\d+)" alt="([^"]+)"/g)];
  expect(shown.map((each) => each[4])).toEqual([
    "Capture 1, fine.png, laid on the print&#39;s own millimetres",
    "Capture 2, coarse.png, laid on the print&#39;s own millimetres",
  ]);
  expect(new Set(shown.map((each) => `${each[2]} × ${each[3]}`)).size).toBe(1);
  for (const [, address] of shown) expect((await app.request(address as string)).headers.get("content-type")).toBe("image/jpeg");
  expect(words(page)).toMatch(/Flatbed scanner, up to 20\d ppi.*Flatbed scanner, up to 16\d ppi/);
  expect(words(page)).toMatch(/lies on capture \d within 0\.0\d mm on half of the picture/);
  expect(words(page)).toContain("no-outline.tif : the print was not found in it; set its outline on its page.");
  expect(page).toContain(`href="/captures/${bare}"`);

  // a dot of the print is at one place in both, as served
  const told = toldIn(page);
  const seen = await Promise.all(told.captures.map(async (each) => dotsSeenMm(await servedGrey(app, each), told.canvas, each)));
  const apart = (seen[0] ?? []).map((dot, index) => Math.hypot(dot.x - (seen[1]?.[index]?.x ?? 99), dot.y - (seen[1]?.[index]?.y ?? 99)));
  expect(apart).toHaveLength(25);
  expect(quantile(apart, 0.5)).toBeLessThan(0.05);
  expect(quantile(apart, 0.95)).toBeLessThan(0.1);

  // what measures draw is switched on by the address too
  const boxOf = (html: string, id: string) => new RegExp(`<input type="checkbox" id="layer-${id}"[^>]*>`).exec(html)?.[0] ?? "";
  expect(boxOf(page, "outline")).not.toContain("checked");
  const drawn = await get("?drawn=outline,strange");
  expect(boxOf(drawn, "outline")).toContain("checked");
  expect(boxOf(drawn, "picture")).not.toContain("checked");
  expect(drawn.match(/<g class="layer layer-outline">/g)).toHaveLength(3); // over each capture, and small in the legend

  // a histogram of both in one plot, with its numbers behind it
  expect(page).toMatch(/<svg[^>]+aria-label="How light the picture is; the table below has the numbers"/);
  expect(page).toContain("<caption>2 coarse.png</caption>");

  // close-ups of one place at one scale, of every capture
  const squares = [...page.matchAll(/<img src="([^"]+\/close-ups\/[^"]+)"[^>]*alt="([^"]+)"/g)].map((each) => ({
    address: (each[1] as string).replaceAll("&amp;", "&"),
    alt: each[2] as string,
  }));
  for (const title of ["Border in a corner", "Edge of the picture", "Finest detail", "Deepest shadow"]) {
    const [a, b] = squares.filter(({ alt }) => alt.startsWith(title));
    const [one, other] = await Promise.all([a, b].map((each) => greyOf(app, each?.address ?? "")));
    expect(correlation(one as Float32Array, other as Float32Array), title).toBeGreaterThan(title.startsWith("Border") ? 0.5 : 0.9);
  }
  const square = squares[0]?.address ?? "";
  expect(page).toContain("/close-ups/border.jpg?tone=matched");
  expect((await greyOf(app, `${square}?tone=matched`)).length).toBe(480 * 480);

  const status = async (address: string) => (await app.request(address)).status;
  const { pictures, tiles } = told.captures[0] as (typeof told.captures)[number];
  const tile = `${pictures}/tiles/${tiles.finest}/0_0.jpg`;
  expect(await status(tile)).toBe(200);
  // they were made with the tiles, which need not wait for them
  const [side = ""] = readdirSync(path.join(context.folder.derived, "laid"));
  expect(readdirSync(path.join(context.folder.derived, "laid", side)).filter((name) => /^\d+-[a-z]+\.jpg$/.test(name))).toHaveLength(8);
  const stranger = keptPrint(context.db, "1999.009");
  for (const address of [
    tile.replace(`/prints/${printId}/`, `/prints/${stranger}/`),
    tile.replace(/[0-9a-f]{32}/, "0".repeat(32)),
    tile.replace(/[0-9a-f]{32}/, "..%2f..%2fcaptures"),
    tile.replace("0_0", "9999_0"),
    tile.replace("0_0", "0_0.jpg%00"),
    tile.replace(/tiles\/\d+/, "tiles/99"),
    tile.replace(`/${id}/`, "/999999999999999/"),
    square.replace("border", "elsewhere"),
    square.replace("border.jpg", "..%2flaid.json"),
    square.replace(`/${id}/`, "/999999999999999/"),
    `${pictures}/laid.json`,
    `${pictures}/..%2flaid.json`,
  ])
    expect(await status(address), address).toBe(404);

  // an outline set by hand makes it anew, and what was made before goes
  const kept = readdirSync(path.join(context.folder.derived, "laid"));
  const said = { topLeft: { x: 60, y: 60 }, topRight: { x: 380, y: 60 }, bottomRight: { x: 380, y: 440 }, bottomLeft: { x: 60, y: 440 } };
  setSaidOutline(context.db, id, said);
  expect(words(await get())).toContain("The captures are being laid on each other");
  await layingEnded();
  const anew = readdirSync(path.join(context.folder.derived, "laid"));
  expect(anew).toHaveLength(1);
  expect(anew).not.toEqual(kept);

  const tileAnew = tile.replace(/[0-9a-f]{32}/, anew[0]?.slice(-32) ?? "");
  expect(await status(tileAnew)).toBe(200);
  context.db.update(schema.prints).set({ binnedAt: "2026-01-01T00:00:00Z" }).where(eq(schema.prints.id, printId)).run();
  for (const address of [tileAnew, `${pictures}/whole.jpg`, `/prints/${printId}/compare`]) expect(await status(address)).toBe(404);
}, 240_000); // a thread of its own lays both, twice

test("where there are not two captures, that is said", async () => {
  const context = emptyCollection();
  const alone = keptPrint(context.db, "1980.001");
  measuredCapture(context.db, alone, {});
  const page = await (await createApp(context).request(`/prints/${alone}/compare`)).text();
  expect(words(page)).toMatch(/cannot be laid on each other There are not two captures of this side yet\. Add a capture/);
});
