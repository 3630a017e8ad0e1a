import type { MiddlewareHandler } from "hono";
import { HTTPException } from "hono/http-exception";

const THIS_MACHINE = ["localhost", "127.0.0.1", "[::1]"];

/**
 * Refuses requests that call this server by a stranger's name. A page elsewhere can point its own
 * name at 127.0.0.1 (DNS rebinding); the browser would then take its scripts for ours.
 */
export const ownHostOnly: MiddlewareHandler = async (c, next) => {
  const name = hostName(c.req.header("host") ?? new URL(c.req.url).host);
  if (name === null || !THIS_MACHINE.includes(name)) throw new HTTPException(421, { message: "unknown host name" });
  await next();
};

/** The name without its port, or null where the header is not a host at all. */
function hostName(header: string): string | null {
  return /^(\[[0-9a-f:.]+\]|[a-z0-9.-]+)(:\d{1,5})?$/i.exec(header)?.[1]?.toLowerCase() ?? null;
}
