import { randomUUID } from "node:crypto";
import { createWriteStream, rmSync } from "node:fs";
import path from "node:path";
import type { Readable } from "node:stream";
import { Transform } from "node:stream";
import { pipeline } from "node:stream/promises";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import type { ImportReport } from "#domain/storage/climate/import-report.ts";
import type { LoggerMapping } from "#domain/storage/climate/logger-mapping.ts";
import { importClimate } from "../actions/import-climate.ts";
import type { Context } from "../context.ts";

/** How far the import of a file has come. */
export type ImportState =
  | { readonly state: "waiting" }
  | { readonly state: "running"; readonly rows: number; readonly share: number }
  | { readonly state: "done"; readonly report: ImportReport }
  | { readonly state: "refused"; readonly refusals: readonly Refusal[] };

export type WaitingFile = { readonly token: string; readonly placeId: number; readonly file: string; readonly fileName: string };

/** Thirty years of readings every minute are about a gigabyte (own bound). */
const MOST_BYTES = 1024 ** 3;
/** A keeper maps one or two at a time; those that were sent and forgotten must not fill the disk. */
const MOST_WAITING = 8;

/**
 * Logger files that were sent and wait to be read, and the imports that run. They live as long as the program does: what it leaves
 * behind is cleared at its next start, and nothing of an import that did not end is in the collection.
 */
export class WaitingFiles {
  readonly #context: Context;
  readonly #files = new Map<string, WaitingFile & { state: ImportState; stopping: AbortController }>();

  constructor(context: Context) {
    this.#context = context;
  }

  async take(placeId: number, fileName: string, source: Readable): Promise<Outcome<WaitingFile>> {
    const token = randomUUID();
    // named as half copies are, so that a crash leaves nothing for good
    const file = path.join(this.#context.folder.incoming, `${process.pid}-${token}`);
    let bytes = 0;
    const bounded = new Transform({
      transform(chunk: Buffer, _encoding, passOn) {
        bytes += chunk.length;
        passOn(bytes > MOST_BYTES ? new Error("too large") : null, chunk);
      },
    });
    try {
      await pipeline(source, bounded, createWriteStream(file, { flags: "wx" }));
    } catch {
      rmSync(file, { force: true });
      return refused(bytes > MOST_BYTES ? TOO_LARGE : BROKE_OFF);
    }
    const waiting = { token, placeId, file, fileName, state: { state: "waiting" } as ImportState, stopping: new AbortController() };
    this.#files.set(token, waiting);
    this.#leaveOldest();
    return done(waiting);
  }

  /** Those that run, and the answers of those that ran, stay. */
  #leaveOldest(): void {
    const unread = [...this.#files.values()].filter(({ state }) => state.state === "waiting" || state.state === "refused");
    for (const { token } of unread.slice(0, -MOST_WAITING)) this.leave(token);
  }

  find(placeId: number, token: string): (WaitingFile & { readonly state: ImportState }) | null {
    const held = this.#files.get(token);
    return held?.placeId === placeId ? held : null;
  }

  /** Begins to read a file; it goes on whether anybody looks or not. Asked twice it runs once. */
  start(token: string, mapping: LoggerMapping): void {
    const held = this.#files.get(token);
    if (!held || held.state.state === "running" || held.state.state === "done") return;
    held.stopping = new AbortController();
    held.state = { state: "running", rows: 0, share: 0 };
    const { placeId, file, fileName, stopping } = held;
    importClimate(this.#context, {
      placeId,
      file,
      fileName,
      mapping,
      stop: stopping.signal,
      onProgress: ({ rows, bytes, bytesOfAll }) => {
        held.state = { state: "running", rows, share: bytesOfAll === 0 ? 0 : bytes / bytesOfAll };
      },
    }).then(
      (outcome) => {
        held.state = outcome.ok ? { state: "done", report: outcome.value.report } : { state: "refused", refusals: outcome.refusals };
        if (outcome.ok) rmSync(file, { force: true });
      },
      (error) => {
        console.error(error);
        held.state = { state: "refused", refusals: [FAULT] };
      },
    );
  }

  stop(token: string): void {
    this.#files.get(token)?.stopping.abort();
  }

  leave(token: string): void {
    const held = this.#files.get(token);
    if (!held) return;
    held.stopping.abort();
    this.#files.delete(token);
    rmSync(held.file, { force: true });
  }
}

const TOO_LARGE: Refusal = {
  about: "file",
  happened: "The file is larger than a gigabyte, and was not kept.",
  remedy: "Have the logger's program write it year by year.",
};
const BROKE_OFF: Refusal = { about: "file", happened: "The file broke off before its end.", remedy: "Send it again." };
const FAULT: Refusal = {
  about: null,
  happened: "The program met a fault of its own, and none of the readings was kept.",
  remedy: "Try it once more; the terminal where the program runs shows what to report.",
};
