import { sql } from "drizzle-orm";
import { check, index, integer, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { METHODS } from "#domain/capture/method.ts";
import type { Quad } from "#domain/measure/picture.ts";
import type { Refusal } from "#domain/outcome.ts";
import type { Arrangement } from "#domain/plan/arrangement.ts";
import { createdAt, id, moment, uuid } from "./columns.ts";
import { prints } from "./prints.ts";

/** A described, re-usable capture arrangement. */
export const setUps = sqliteTable("set_ups", {
  id: id(),
  name: text().notNull().unique(),
  method: text({ enum: METHODS }).notNull(),
  device: text(),
  lens: text(),
  light: text(),
  glass: text(),
  settings: text(),
  priceAmount: real(),
  priceCurrency: text(),
  note: text(),
  /** the figures that a plan is worked out from; null where nobody gave them */
  arrangement: text({ mode: "json" }).$type<Arrangement>(),
  /** grows by one with every save, so that two people cannot overwrite each other unseen */
  revision: integer().notNull().default(1),
  createdAt: createdAt(),
});

/** One file, kept as it came, named by its SHA-256 in captures/. Never changed, never stored twice. */
export const originals = sqliteTable(
  "originals",
  {
    id: id(),
    uuid: uuid(),
    sha256: text().notNull().unique(),
    bytes: integer().notNull(),
    /** what the bytes are, not what the name says */
    kind: text({ enum: ["jpeg", "png", "webp", "avif", "tiff", "heic", "raw"] }).notNull(),
    originalName: text().notNull(),
    /** upright, after the EXIF orientation */
    widthPx: integer().notNull(),
    heightPx: integer().notNull(),
    bitsPerChannel: integer().notNull(),
    channels: integer().notNull(),
    colourSpace: text().notNull(),
    profileName: text(),
    metadataState: text({ enum: ["read", "none", "unreadable"] }).notNull(),
    metadataNote: text(),
    /** set-up facts from EXIF; null where the file does not say. No zone where EXIF gives none. */
    capturedAt: moment(),
    deviceMake: text(),
    deviceModel: text(),
    lens: text(),
    software: text(),
    exposureTimeS: real(),
    fNumber: real(),
    isoSpeed: real(),
    focalLengthMm: real(),
    claimedPpiX: real(),
    claimedPpiY: real(),
    createdAt: createdAt(),
  },
  (t) => [
    check("originals_sha256", sql`length(${t.sha256}) = 64`),
    check("originals_size", sql`${t.bytes} > 0 and ${t.widthPx} > 0 and ${t.heightPx} > 0`),
  ],
);

/**
 * One image of one side of one print: an original, or the part of it inside `region` where one
 * bed held several prints. Without a print it waits in the tray.
 */
export const captures = sqliteTable(
  "captures",
  {
    id: id(),
    uuid: uuid(),
    originalId: integer()
      .notNull()
      .references(() => originals.id, { onDelete: "restrict" }),
    printId: integer().references(() => prints.id, { onDelete: "restrict" }),
    side: text({ enum: ["front", "back"] })
      .notNull()
      .default("front"),
    method: text({ enum: METHODS }),
    methodBasis: text({ enum: ["said", "guessed"] }),
    setUpId: integer().references(() => setUps.id, { onDelete: "restrict" }),
    /** {left, top, width, height} in upright pixels of the original; null means the whole of it */
    region: text({ mode: "json" }).$type<{ left: number; top: number; width: number; height: number }>(),
    /** YYYY-MM-DD on which it was made, as a person said: it goes before what the file says */
    saidDay: text(),
    /** the sheet's corners as a person set them, in the capture's own pixels; null means that measuring finds them */
    saidOutline: text({ mode: "json" }).$type<Quad>(),
    /** true once a bed has been divided: its parts are captures of their own */
    divided: integer({ mode: "boolean" }).notNull().default(false),
    /** since when it counts nowhere, because a person put it away; who and why is in the history. Its print and side are kept for its return. */
    putAwayAt: moment(),
    note: text(),
    createdAt: createdAt(),
  },
  (t) => [
    check("captures_side", sql`${t.side} in ('front', 'back')`),
    check(
      "captures_method",
      sql`${t.method} in ('phone-camera', 'sheet-fed-scanner', 'flatbed-scanner', 'copy-stand-camera') and (${t.method} is null) = (${t.methodBasis} is null)`,
    ),
    check("captures_region", sql`${t.region} is null or json_valid(${t.region})`),
    index("captures_of_print").on(t.printId, t.side),
    index("captures_of_original").on(t.originalId),
  ],
);

/** One check of all originals. It ends when each has been looked at; a run without an end was stopped, and can be gone on with. */
export const fixityRuns = sqliteTable("fixity_runs", {
  id: id(),
  startedAt: moment().notNull(),
  endedAt: moment(),
  /** files among the originals that no record knows, in words for the keeper */
  strays: text({ mode: "json" }).$type<Refusal[]>().notNull().default([]),
});

/** One look at whether an original still is what it was. Rows are only ever added. */
export const fixityChecks = sqliteTable(
  "fixity_checks",
  {
    id: id(),
    originalId: integer()
      .notNull()
      .references(() => originals.id, { onDelete: "restrict" }),
    checkedAt: createdAt(),
    outcome: text({ enum: ["unchanged", "changed", "missing", "unreadable"] }).notNull(),
    foundSha256: text(),
    /** null: looked at before runs were kept */
    runId: integer().references(() => fixityRuns.id, { onDelete: "restrict" }),
  },
  (t) => [index("fixity_of_original").on(t.originalId, t.checkedAt), index("fixity_of_run").on(t.runId, t.originalId)],
);
