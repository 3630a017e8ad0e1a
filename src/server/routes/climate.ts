import { Hono, type Context as Request } from "hono";
import type { Refusal } from "#domain/outcome.ts";
import { isDelimiter, type LoggerMapping, loggerMapping } from "#domain/storage/climate/logger-mapping.ts";
import { rowReader } from "#domain/storage/climate/read-row.ts";
import { isStretch } from "#domain/storage/climate/stretch.ts";
import { typedReading } from "#domain/storage/climate/typed-reading.ts";
import { whoseClimate } from "#domain/storage/climate/whose-climate.ts";
import type { Place } from "#domain/storage/place.ts";
import { flatten, pathInWords, placeTree } from "#domain/storage/place-tree.ts";
import { listClimateImports, placesWithReadings } from "#drizzle/queries/climate.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { findPlace, listPlaces } from "#drizzle/queries/places.ts";
import { ClimatePage } from "#views/pages/climate.tsx";
import { ClimateProgressPage } from "#views/pages/climate-progress.tsx";
import { LoggerMappingPage } from "#views/pages/logger-mapping.tsx";
import { type FormState, NOTHING_TYPED, type Typed } from "#views/parts/field.tsx";
import { takeBackClimate } from "../actions/take-back-climate.ts";
import { typeClimate } from "../actions/type-climate.ts";
import { lookAtLoggerFile, NoLoggerFile } from "../climate/logger-file.ts";
import { shownClimate } from "../climate/shown-climate.ts";
import { type WaitingFile, WaitingFiles } from "../climate/waiting-files.ts";
import type { Context } from "../context.ts";
import { plainName } from "../intake/copy-in.ts";
import { idIn, readForm, refusalsOf } from "./form.ts";
import { readUpload } from "./upload.ts";

const PREVIEW_ROWS = 12;

export function climateRoutes(context: Context): Hono {
  const waiting = new WaitingFiles(context);

  const kept = (c: Request): Place | null => {
    const id = idIn(c);
    return id === null ? null : findPlace(context.db, id);
  };
  const keptFile = (c: Request, place: Place) => waiting.find(place.id, c.req.param("token") ?? "");

  const show = (c: Request, place: Place, status: 200 | 422, forms: { upload?: FormState; reading?: FormState } = {}) => {
    const tree = placeTree(listPlaces(context.db));
    const nodes = flatten(tree);
    const asked = c.req.query("stretch");
    const stretch = isStretch(asked) ? asked : "year";
    const from = whoseClimate(tree, placesWithReadings(context.db)).get(place.id);
    const told = from === undefined || from === place.id ? null : (nodes.find(({ id }) => id === from) ?? null);
    return c.html(
      ClimatePage({
        collectionName: readCollection(context.db).name,
        place,
        path: pathInWords(nodes.find(({ id }) => id === place.id)?.path ?? [place.name]),
        stretch,
        shown: shownClimate(context, tree, place.id, stretch),
        toldBy: told && { id: told.id, path: pathInWords(told.path) },
        imports: listClimateImports(context.db, place.id),
        upload: forms.upload ?? NOTHING_TYPED,
        reading: forms.reading ?? { typed: { timeZone: ownZone() }, refusals: [] },
        done: c.req.query("done"),
      }),
      status,
    );
  };

  const showMapping = async (c: Request, place: Place, file: WaitingFile, status: 200 | 422, form: FormState | null) => {
    const delimiter = form?.typed.delimiter;
    const looked = await lookAtLoggerFile(file.file, isDelimiter(delimiter) ? { delimiter } : {}).catch((error) => {
      if (error instanceof NoLoggerFile) return error;
      throw error;
    });
    if (looked instanceof NoLoggerFile) {
      waiting.leave(file.token);
      return show(c, place, 422, { upload: { typed: {}, refusals: [{ about: "file", happened: looked.message, remedy: "" }] } });
    }
    const typed = form?.typed ?? { ...typedFrom(looked), timeZone: ownZone() };
    const read = loggerMapping.safeParse(typed);
    return c.html(
      LoggerMappingPage({
        collectionName: readCollection(context.db).name,
        place,
        token: file.token,
        fileName: file.fileName,
        rows: looked.rows.slice(0, Math.max(PREVIEW_ROWS, (looked.guessed.firstRow ?? 1) + PREVIEW_ROWS - 2)),
        headerRow: looked.guessed.headerRow,
        readAs: read.success ? firstRowsRead(looked.rows, read.data) : [],
        form: { typed, refusals: form?.refusals ?? [] },
      }),
      status,
    );
  };

  return new Hono()
    .get("/places/:id{[0-9]+}/climate", (c) => {
      const place = kept(c);
      return place ? show(c, place, 200) : c.notFound();
    })

    .post("/places/:id{[0-9]+}/climate/readings", async (c) => {
      const place = kept(c);
      if (!place) return c.notFound();
      const typed = await readForm(c);
      const read = typedReading.safeParse(typed);
      if (!read.success) return show(c, place, 422, { reading: { typed, refusals: refusalsOf(read.error) } });
      const made = typeClimate(context, { placeId: place.id, reading: read.data });
      if (!made.ok) return show(c, place, 422, { reading: { typed, refusals: made.refusals } });
      return c.redirect(`/places/${place.id}/climate?done=climate-typed`, 303);
    })

    .post("/places/:id{[0-9]+}/climate/imports/:import{[0-9]+}/take-back", (c) => {
      const place = kept(c);
      if (!place) return c.notFound();
      const gone = takeBackClimate(context, { placeId: place.id, importId: Number(c.req.param("import")) });
      if (!gone.ok) return show(c, place, 422, { upload: { typed: {}, refusals: gone.refusals } });
      return c.redirect(`/places/${place.id}/climate?done=climate-taken-back`, 303);
    })

    .post("/places/:id{[0-9]+}/climate/files", async (c) => {
      const place = kept(c);
      if (!place) return c.notFound();
      const taken: { file: WaitingFile | null; refusals: readonly Refusal[] } = { file: null, refusals: [] };
      const sent = await readUpload(c.req.raw, async ({ name, stream }) => {
        if (taken.file || taken.refusals.length > 0) return;
        const made = await waiting.take(place.id, plainName(name), stream);
        if (made.ok) taken.file = made.value;
        else taken.refusals = made.refusals;
      });
      if (taken.file && sent.isWhole) return c.redirect(`/places/${place.id}/climate/files/${taken.file.token}`, 303);
      if (taken.file) waiting.leave(taken.file.token);
      const refusals = taken.refusals.length > 0 ? taken.refusals : [NO_FILE];
      return show(c, place, 422, { upload: { typed: {}, refusals } });
    })

    .get("/places/:id{[0-9]+}/climate/files/:token", async (c) => {
      const place = kept(c);
      const file = place && keptFile(c, place);
      if (!place) return c.notFound();
      if (!file) return show(c, place, 422, { upload: { typed: {}, refusals: [FILE_GONE] } });
      if (file.state.state !== "waiting" && file.state.state !== "refused") return c.redirect(`${c.req.path}/progress`, 303);
      const asked = c.req.query();
      if (Object.keys(asked).length === 0) return showMapping(c, place, file, 200, null);
      const read = loggerMapping.safeParse(asked);
      return showMapping(c, place, file, 200, { typed: asked, refusals: read.success ? [] : refusalsOf(read.error) });
    })

    .post("/places/:id{[0-9]+}/climate/files/:token/import", async (c) => {
      const place = kept(c);
      const file = place && keptFile(c, place);
      if (!place) return c.notFound();
      if (!file) return show(c, place, 422, { upload: { typed: {}, refusals: [FILE_GONE] } });
      const typed = await readForm(c);
      const read = loggerMapping.safeParse(typed);
      if (!read.success) return showMapping(c, place, file, 422, { typed, refusals: refusalsOf(read.error) });
      waiting.start(file.token, read.data);
      return c.redirect(`/places/${place.id}/climate/files/${file.token}/progress`, 303);
    })

    .get("/places/:id{[0-9]+}/climate/files/:token/progress", (c) => {
      const place = kept(c);
      const file = place && keptFile(c, place);
      if (!place) return c.notFound();
      if (!file) return show(c, place, 422, { upload: { typed: {}, refusals: [FILE_GONE] } });
      c.header("Cache-Control", "no-store");
      const { name: collectionName } = readCollection(context.db);
      return c.html(ClimateProgressPage({ collectionName, place, token: file.token, fileName: file.fileName, state: file.state }));
    })

    .post("/places/:id{[0-9]+}/climate/files/:token/stop", (c) => {
      const place = kept(c);
      const file = place && keptFile(c, place);
      if (!place) return c.notFound();
      if (file?.state.state === "running") {
        waiting.stop(file.token);
        return c.redirect(`/places/${place.id}/climate/files/${file.token}/progress`, 303);
      }
      if (file) waiting.leave(file.token);
      return c.redirect(`/places/${place.id}/climate`, 303);
    });
}

/** What the fields of a mapping show for what the file seems to be. */
function typedFrom({ delimiter, guessed: { headerRow: _header, ...guessed } }: Awaited<ReturnType<typeof lookAtLoggerFile>>): Typed {
  const said = Object.entries({ delimiter, ...guessed }).map(([name, value]) => [name, value === null ? "" : String(value)]);
  return Object.fromEntries(said);
}

/** The first rows as this mapping reads them. */
function firstRowsRead(rows: readonly (readonly string[])[], mapping: LoggerMapping) {
  const read = rowReader(mapping);
  return rows
    .slice(mapping.firstRow - 1)
    .filter((cells) => cells.some((cell) => cell.trim() !== ""))
    .slice(0, 5)
    .map((cells, index) => ({ row: mapping.firstRow + index, ...read(cells) }));
}

/** The zone of the machine that serves the pages: mostly that of the place and its logger too. */
const ownZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;

const NO_FILE: Refusal = { about: "file", happened: "No file was chosen.", remedy: "Choose the CSV file that the logger's program wrote." };
const FILE_GONE: Refusal = {
  about: "file",
  happened: "That file is not here any more: it was read already, or the program was started anew.",
  remedy: "Choose it again. Readings that are in the place already are not kept twice.",
};
