import { type Gap, type ImportProblem, MOST_NAMED } from "#domain/storage/climate/import-report.ts";
import type { ClimateReading } from "#domain/storage/climate/read-row.ts";
import type { Database } from "../client.ts";

export type StagedReading = ClimateReading & { readonly row: number };

/** What the sorted readings of a file tell. */
export type StagedFacts = {
  readonly count: number;
  readonly firstSeconds: number;
  readonly lastSeconds: number;
  readonly usualStepSeconds: number | null;
  readonly gapCount: number;
  readonly longestGapSeconds: number;
  readonly gaps: readonly Gap[];
};

/** Readings of one kind, with the first of them. */
export type HeldAlready = {
  readonly isSame: boolean;
  readonly count: number;
  readonly first: readonly { row: number; atSeconds: number }[];
};

/** A distance between two readings is a gap when it is longer than this many usual ones (own rule). */
const GAP_STEPS = 2;

let made = 0;

/**
 * Where the readings of one file wait until all of them are known, in a temporary table: on disk, outside the collection, and gone
 * with this connection, so that a file that breaks off, or a crash, leaves nothing behind.
 */
export class ClimateStaging {
  readonly #client: Database["$client"];
  readonly #table: string;

  constructor(db: Database) {
    this.#client = db.$client;
    this.#table = `temp.staged_readings_${++made}`;
    this.#client.exec(
      `create temporary table staged_readings_${made} (at_seconds integer primary key, temperature integer, humidity integer, row integer not null) strict`,
    );
  }

  /** Adds readings; answers those whose time is there already, with whether the values are the same. */
  add(readings: readonly StagedReading[]): { reading: StagedReading; problem: ImportProblem }[] {
    const insert = this.#client.prepare(`insert into ${this.#table} values (?, ?, ?, ?) on conflict do nothing`);
    const held = this.#client.prepare(`select temperature is ? and humidity is ? from ${this.#table} where at_seconds = ?`).pluck();
    const twice: { reading: StagedReading; problem: ImportProblem }[] = [];
    // a plain transaction: one that only touches the temporary file keeps nobody from writing the collection
    const addAll = this.#client.transaction(() => {
      for (const reading of readings) {
        const { atSeconds, temperatureCentiC, humidityCentiPercent, row } = reading;
        if (insert.run(atSeconds, temperatureCentiC, humidityCentiPercent, row).changes === 1) continue;
        const isSame = held.get(temperatureCentiC, humidityCentiPercent, atSeconds) === 1;
        twice.push({ reading, problem: isSame ? "twice-same" : "twice-different" });
      }
    });
    addAll.deferred();
    return twice;
  }

  facts(): StagedFacts {
    const whole = this.#client
      .prepare(`select count(*) as count, min(at_seconds) as first, max(at_seconds) as last from ${this.#table}`)
      .get() as { count: number; first: number | null; last: number | null };
    const steps = `select at_seconds - lag(at_seconds) over (order by at_seconds) as step, row, lag(row) over (order by at_seconds) as before, lag(at_seconds) over (order by at_seconds) as since from ${this.#table}`;
    const usual = this.#client
      .prepare(`select step from (${steps}) where step is not null group by step order by count(*) desc, step limit 1`)
      .pluck()
      .get() as number | undefined;
    const gap = `select step as seconds, before as afterRow, row as beforeRow, since as fromSeconds from (${steps}) where step > ?`;
    const limit = GAP_STEPS * (usual ?? 0);
    const counted = this.#client.prepare(`select count(*) as count, max(seconds) as longest from (${gap})`).get(limit) as {
      count: number;
      longest: number | null;
    };
    const gaps = this.#client.prepare(`${gap} order by step desc limit ${MOST_NAMED}`).all(limit) as Gap[];
    return {
      count: whole.count,
      firstSeconds: whole.first ?? 0,
      lastSeconds: whole.last ?? 0,
      usualStepSeconds: usual ?? null,
      gapCount: counted.count,
      longestGapSeconds: counted.longest ?? 0,
      gaps: gaps.toSorted((a, b) => a.fromSeconds - b.fromSeconds),
    };
  }

  /** Readings whose time the place has already, those with the same values first. */
  heldAlready(placeId: number): HeldAlready[] {
    const same = "(s.temperature is r.temperature_centi_c and s.humidity is r.humidity_centi_percent)";
    const from = `from ${this.#table} s join climate_readings r on r.place_id = ? and r.at_seconds = s.at_seconds where ${same} = ?`;
    return [1, 0].map((isSame) => ({
      isSame: isSame === 1,
      count: this.#client.prepare(`select count(*) ${from}`).pluck().get(placeId, isSame) as number,
      first: this.#client
        .prepare(`select s.row as row, s.at_seconds as atSeconds ${from} order by s.row limit ${MOST_NAMED}`)
        .all(placeId, isSame) as { row: number; atSeconds: number }[],
    }));
  }

  /** Puts what the place has not yet into it. Call it inside the transaction of the import. */
  moveInto(placeId: number, importId: number): number {
    return this.#client
      .prepare(
        `insert into climate_readings (place_id, at_seconds, temperature_centi_c, humidity_centi_percent, import_id)
         select ?, at_seconds, temperature, humidity, ? from ${this.#table} where true order by at_seconds on conflict do nothing`,
      )
      .run(placeId, importId).changes;
  }

  drop(): void {
    this.#client.exec(`drop table if exists ${this.#table}`);
  }
}
