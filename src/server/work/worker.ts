import { rm } from "node:fs/promises";
import { parentPort } from "node:worker_threads";
import { changeBetween, type QualifiedCapture } from "#domain/condition/change/change-between.ts";
import { compareCaptures, notCompared } from "#domain/measure/compare-captures.ts";
import { fingerprintOf } from "#domain/measure/likeness/fingerprint.ts";
import type { Sameness } from "#domain/measure/likeness/likeness.ts";
import { eachView, viewsOf } from "#domain/measure/likeness/likeness-views.ts";
import { lookAmong } from "#domain/measure/likeness/look-among.ts";
import { largestOutline, measureCapture } from "#domain/measure/measure-capture.ts";
import { derivedPath } from "../collection-folder.ts";
import { decodeReadable, readJpegHeader } from "../images/decode.ts";
import { deriveFromPicture } from "../images/derive.ts";
import { writeLaidPictures } from "../images/laid-pictures.ts";
import { readable } from "../images/readable.ts";
import { straightenWhole } from "../images/straighten-whole.ts";
import { UnreadableImage } from "../images/unreadable-image.ts";
import { readFileClaims } from "../intake/read-file-claims.ts";
import { withoutAreas, writeAreas } from "./areas-file.ts";
import { readGrid, readPlane, writeFrame, writeGrid } from "./grid-file.ts";
import type { Answer, CaptureToHold, Compared, Job, Measured } from "./job.ts";
import { laySide } from "./lay-side.ts";

parentPort?.on("message", async (job: Job) => {
  parentPort?.postMessage(await answer(job));
});

async function answer(job: Job): Promise<Answer> {
  try {
    if (job.kind === "change") return { change: await holdAgainst(job) };
    if (job.kind === "look") return { looked: await lookClosely(job) };
    if (job.kind === "straighten") return { straightened: await straightened(job) };
    if (job.kind === "lay") return { laid: await laySide(job) };
    return job.kind === "measure" ? { measured: await measure(job) } : { compared: await compare(job) };
  } catch (error) {
    if (error instanceof UnreadableImage) return { unreadable: `The file ${error.trouble} ${error.remedy}` };
    return { fault: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

async function straightened({ original, within, sheet }: Job & { kind: "straighten" }): Promise<Uint8Array<ArrayBuffer>> {
  return new Uint8Array(await straightenWhole(await readable(original.path, original.kind), within, sheet));
}

async function measure({ folder, captureId, original, region, known }: Job & { kind: "measure" }): Promise<Measured> {
  const start = performance.now();
  const input = await readable(original.path, original.kind);
  const picture = await decodeReadable(input, region);
  await deriveFromPicture(folder, captureId, picture);
  const jpegHeader = original.kind === "jpeg" ? await readJpegHeader(original.path) : null;
  const fileClaims = await readFileClaims(original.path, original.kind, original);
  const { readings, outlines, grid } = measureCapture(picture, { ...known, jpegHeader, fileClaims });
  if (grid) await writeGrid(folder, captureId, grid);
  else await rm(derivedPath(folder, captureId, "grid.bin"), { force: true });
  const views = viewsOf(picture, largestOutline(outlines), grid);
  if (views.frame) await writeFrame(folder, captureId, views.frame);
  else await rm(derivedPath(folder, captureId, "frame.bin"), { force: true });
  await writeAreas(folder, captureId, "alone", readings);
  const fingerprints = eachView(views, fingerprintOf);
  return { readings: withoutAreas(readings), outlines, fingerprints, durationMs: Math.round(performance.now() - start) };
}

async function compare({ folder, captures }: Job & { kind: "compare" }): Promise<Compared> {
  const grids = await Promise.all(captures.map(async ({ id }) => ({ captureId: id, grid: await readGrid(folder, id) })));
  const compared = await compareCaptures(
    grids.flatMap(({ captureId, grid }) => (grid ? [{ captureId, grid }] : [])),
    async (captureId) => {
      const capture = captures.find(({ id }) => id === captureId);
      return capture ? decodeReadable(await readable(capture.original.path, capture.original.kind), capture.region) : null;
    },
  );
  for (const { captureId, readings } of compared) await writeAreas(folder, captureId, "together", readings);
  const without = grids.filter(({ grid }) => grid === null);
  return [
    ...compared.map(({ captureId, readings }) => ({ captureId, readings: withoutAreas(readings) })),
    ...without.map(({ captureId }) =>
      notCompared(captureId, "the print was not found in this capture, so it cannot be laid over the others"),
    ),
  ];
}

async function lookClosely({ folder, captureId, others }: Job & { kind: "look" }): Promise<(Sameness | null)[]> {
  const asked = { print: await readPlane(folder, captureId, "print"), frame: await readPlane(folder, captureId, "frame") };
  return lookAmong(others, async ({ captureId: otherId, view, other }) => {
    const [plane, otherPlane] = [asked[view], await readPlane(folder, otherId, other)];
    return plane && otherPlane && [plane, otherPlane];
  });
}

async function holdAgainst({ folder, older, newer }: Job & { kind: "change" }) {
  const held = async ({ id, original, region, ...known }: CaptureToHold): Promise<QualifiedCapture> => ({
    ...known,
    grid: await readGrid(folder, id),
    picture: async () => decodeReadable(await readable(original.path, original.kind), region),
  });
  const found = await changeBetween(await held(older), await held(newer));
  if ("refused" in found) return found;
  await writeLaidPictures(folder, { olderId: older.id, newerId: newer.id }, found.pictures);
  return found.change;
}
