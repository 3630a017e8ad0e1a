import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Hono } from "hono";

type Asset = { readonly type: string; readonly body: string; readonly tag: string };

const STYLE = fileURLToPath(new URL("../../views/style/", import.meta.url));
const CLIENT = fileURLToPath(new URL("../../views/client/", import.meta.url));

/** The few files a page may ask for, read once at start. A name that is not in the table is not looked for on disk. */
export function assetRoutes(): Hono {
  const assets = readAssets();
  return new Hono().get("/assets/:name", (c) => {
    const asset = assets.get(c.req.param("name"));
    if (!asset) return c.notFound();
    c.header("ETag", asset.tag);
    c.header("Cache-Control", "no-cache");
    if (c.req.header("if-none-match") === asset.tag) return c.body(null, 304);
    return c.body(asset.body, 200, { "Content-Type": asset.type });
  });
}

function readAssets(): Map<string, Asset> {
  const assets = new Map<string, Asset>();
  assets.set("style.css", asset("text/css; charset=utf-8", wholeStyle()));
  assets.set("htmx.js", asset(SCRIPT, ofPackage("htmx.org/dist/htmx.min.js")));
  assets.set("openseadragon.js", asset(SCRIPT, ofPackage("openseadragon/build/openseadragon/openseadragon.min.js")));
  for (const name of readdirSync(CLIENT)) {
    const text = readFileSync(CLIENT + name, "utf8");
    if (name.endsWith(".js")) assets.set(name, asset(SCRIPT, text));
    if (name.endsWith(".svg")) assets.set(name, asset("image/svg+xml", text));
  }
  return assets;
}

const ofPackage = (file: string): string => readFileSync(fileURLToPath(import.meta.resolve(file)), "utf8");

/** All style sheets as one, _layers.css first, since its underscore sorts before the letters. */
const wholeStyle = (): string =>
  readdirSync(STYLE)
    .filter((name) => name.endsWith(".css"))
    .sort()
    .map((name) => readFileSync(STYLE + name, "utf8"))
    .join("\n");

const SCRIPT = "text/javascript; charset=utf-8";

function asset(type: string, body: string): Asset {
  return { type, body, tag: `"${createHash("sha256").update(body).digest("base64url")}"` };
}
