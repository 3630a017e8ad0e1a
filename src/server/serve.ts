import { once } from "node:events";
import type { Server } from "node:http";
import type { AddressInfo } from "node:net";
import { createAdaptorServer } from "@hono/node-server";
import { done, type Outcome, refused } from "#domain/outcome.ts";
import { createApp } from "./app.ts";
import type { Context } from "./context.ts";

const DEFAULT_PORT = 4173;
const DEFAULT_HOST = "127.0.0.1";

export type Serving = {
  /** where a browser on this machine finds it */
  readonly url: string;
  /** takes no new request, lets those under way finish, then ends */
  readonly stop: () => Promise<void>;
};

/** Names under which only this machine itself can come in. */
const THIS_MACHINE = ["127.0.0.1", "localhost", "::1"];

/** A large scan on a slow disk takes its time; a connection that says nothing is ended long before. */
const LONGEST_REQUEST_MS = 30 * 60_000;
const LONGEST_FAREWELL_MS = 5_000;

/** Serves the collection to browsers on this machine. Port 0 takes any that is free. */
export async function serve(context: Context, options: { port?: number; host?: string } = {}): Promise<Outcome<Serving>> {
  const host = options.host ?? DEFAULT_HOST;
  const port = options.port ?? DEFAULT_PORT;
  if (!THIS_MACHINE.includes(host)) {
    return refused({
      about: "HOST",
      happened: `The collection is not served at “${host}”: there is no sign-in yet, and anybody who reaches that address could change it.`,
      remedy: `Leave HOST away, or set it to ${DEFAULT_HOST}.`,
    });
  }
  if (!Number.isInteger(port) || port < 0 || port > 65_535) {
    return refused({ about: "PORT", happened: `“${port}” is not a port.`, remedy: "Set PORT to a whole number from 1 to 65535." });
  }
  const server = createAdaptorServer({
    fetch: createApp(context).fetch,
    serverOptions: { requestTimeout: LONGEST_REQUEST_MS },
  }) as Server;
  try {
    server.listen(port, host);
    await once(server, "listening");
  } catch (error) {
    return cannotListen(error, host, port);
  }
  const { port: taken } = server.address() as AddressInfo;
  return done({ url: `http://${host === "::1" ? "[::1]" : host}:${taken}`, stop: () => stop(server) });
}

function cannotListen(error: unknown, host: string, port: number): Outcome<Serving> {
  const code = error instanceof Error && "code" in error ? error.code : undefined;
  if (code === "EADDRINUSE") {
    return refused({
      about: "PORT",
      happened: `Port ${port} is in use: another program, or this one in another window, is listening there.`,
      remedy: "Stop that one, or set PORT to another number, e.g. PORT=4174.",
    });
  }
  if (code === "EACCES" || code === "EADDRNOTAVAIL") {
    return refused({
      about: code === "EACCES" ? "PORT" : "HOST",
      happened: `This machine does not allow listening at ${host}, port ${port}.`,
      remedy: `Leave HOST away and set PORT to a number above 1023, e.g. ${DEFAULT_PORT}.`,
    });
  }
  throw error;
}

async function stop(server: Server): Promise<void> {
  const closed = once(server, "close");
  server.close();
  server.closeIdleConnections();
  const impatience = setTimeout(() => server.closeAllConnections(), LONGEST_FAREWELL_MS);
  await closed;
  clearTimeout(impatience);
}
