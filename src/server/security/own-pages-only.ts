import type { MiddlewareHandler } from "hono";
import { HTTPException } from "hono/http-exception";

const OTHER_SITES = ["cross-site", "same-site"];

/**
 * Refuses what a page of another site asks for besides being opened: its pictures and scripts could set this program to work, and tell by
 * the time taken what is here. A link that leads here is followed; programs that are no browsers do not say where they come from
 * (resource isolation policy on Fetch Metadata Request Headers, W3C working draft).
 */
export const ownPagesOnly: MiddlewareHandler = async (c, next) => {
  const isOpened = c.req.method === "GET" && c.req.header("sec-fetch-mode") === "navigate" && c.req.header("sec-fetch-dest") === "document";
  if (OTHER_SITES.includes(c.req.header("sec-fetch-site") ?? "") && !isOpened) throw new HTTPException(403, { message: "another site" });
  await next();
};
