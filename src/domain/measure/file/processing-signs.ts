import type { FileClaims } from "../../capture/file-claims.ts";
import type { Picture } from "../picture.ts";
import type { MeasureContext, Outline, Reading } from "../reading.ts";
import { jpegTables } from "./jpeg-tables.ts";
import { thumbnailSigns } from "./thumbnail-signs.ts";

/**
 * Signs that a file is not as the device wrote it: made smaller, cropped, saved anew or passed through a program. What is
 * counted stands as sentences in the detail, with what the file says of its colour and scale.
 *
 * Needs: what the file says of itself, and for its thumbnail the whole picture, not a part of a bed. No sign proves nothing, since what a file says is easily lost.
 * Source: tags of CIPA DC-008 (EXIF), TIFF 6.0 and ITU-T T.81; what they betray is common practice, no source.
 */
export function processingSigns(picture: Picture, _outline: Outline | null, context: MeasureContext): Reading[] {
  const name = "processingSignCount";
  const { fileClaims, fileKind, jpegHeader, profileName, claimedPpiX, claimedPpiY } = context;
  if (!fileClaims) return [{ name, absent: "what the file says of its own making was not looked into" }];
  const tables = jpegHeader && jpegTables(jpegHeader);
  const { thumbnail, fileWidthPx, fileHeightPx } = fileClaims;
  const isWhole = picture.widthPx === fileWidthPx && picture.heightPx === fileHeightPx;
  const signs = [
    ...(thumbnail && isWhole ? thumbnailSigns(picture, thumbnail) : []),
    ...SIGNS.flatMap((sign) => sign(fileClaims, fileKind) ?? []),
    ...(tables?.isProgressive ? ["It is stored in several passes, as programs and web sites write JPEG and devices do not."] : []),
  ];
  return [
    {
      name,
      value: signs.length,
      reliability: signs.length > 0 ? "fair" : "weak",
      note: signs.length > 0 ? signs.join(" ") : "No sign, which proves nothing: what a file says of its own making is easily lost.",
      detail: {
        signs: signs.map((sign) => ({ sign })),
        profile: profileName,
        claimedPpiX,
        claimedPpiY,
        jpegSampling: tables?.sampling ?? null,
      },
    },
  ];
}

type Sign = (claims: FileClaims, fileKind: string) => string | null;

/** Long sides that services make of larger pictures (common practice, no source). */
const SIDES_OF_SERVICES = [960, 1024, 1080, 1280, 1600, 1920, 2048, 2560, 4096];
/** Kinds of file that no device was known to write when this was written (common practice, no source). */
const KINDS_OF_PROGRAMS = ["webp", "avif"];

const SIGNS: readonly Sign[] = [
  ({ saidWidthPx, saidHeightPx, fileWidthPx, fileHeightPx }) => {
    if (saidWidthPx === null || saidHeightPx === null) return null;
    const [saidLong, saidShort] = [Math.max(saidWidthPx, saidHeightPx), Math.min(saidWidthPx, saidHeightPx)];
    const [long, short] = [Math.max(fileWidthPx, fileHeightPx), Math.min(fileWidthPx, fileHeightPx)];
    if (saidLong === long && saidShort === short) return null;
    const ratio = Math.abs((saidLong * short) / (saidShort * long) - 1) < SAME_SHAPE;
    const change = long > saidLong ? "enlarged" : ratio ? "made smaller" : "cropped";
    return `The device wrote a picture of ${saidLong} × ${saidShort} px and the file holds ${long} × ${short}: it was ${change} afterwards.`;
  },
  ({ takenAt, changedAt }) => {
    const [taken, changed] = [secondsOf(takenAt), secondsOf(changedAt)];
    if (taken === null || changed === null || changed - taken < SAVING_SECONDS) return null;
    return `It was taken at ${shown(takenAt)} and changed at ${shown(changedAt)}.`;
  },
  ({ listsEdits }) => (listsEdits ? "It lists edits, or a file that it was made from." : null),
  ({ software, namesDevice }, fileKind) =>
    fileKind === "jpeg" && software !== null && !namesDevice ? `It names the program that saved it (“${software}”) and no device.` : null,
  ({ namesDevice, namesExposure, takenAt, changedAt }) =>
    namesDevice && namesExposure && takenAt === null && changedAt === null
      ? "It names device and exposure but no time: part of what the device wrote was taken out."
      : null,
  ({ namesDevice, software, takenAt, fileWidthPx, fileHeightPx }, fileKind) =>
    fileKind === "jpeg" && !namesDevice && !software && !takenAt && SIDES_OF_SERVICES.includes(Math.max(fileWidthPx, fileHeightPx))
      ? `It says nothing of its making and is exactly ${Math.max(fileWidthPx, fileHeightPx)} px long, as message services and web sites make pictures.`
      : null,
  (_, fileKind) =>
    KINDS_OF_PROGRAMS.includes(fileKind) ? `A program made it: cameras and scanners do not write ${fileKind.toUpperCase()} files.` : null,
  ({ digitalZoom }) =>
    digitalZoom !== null && digitalZoom > 1
      ? `The device enlarged it by ${digitalZoom.toFixed(1)} times in software (digital zoom).`
      : null,
  ({ isComposite }) => (isComposite ? "The device put it together from several exposures." : null),
  ({ isHardSharpened }) => (isHardSharpened ? "The device was set to sharpen strongly." : null),
];

const SAME_SHAPE = 0.01;
/** Devices may take so long from exposure to the written file. */
const SAVING_SECONDS = 120;

/** "2021:05:06 12:13:14" of EXIF as seconds of one clock; null when it is no moment. */
function secondsOf(moment: string | null): number | null {
  const found = /^(\d{4})[:-](\d{2})[:-](\d{2})[ T](\d{2}):(\d{2}):(\d{2})/.exec(moment ?? "");
  if (!found) return null;
  const [year, month, day, hour, minute, second] = found.slice(1).map(Number) as [number, number, number, number, number, number];
  const time = Date.UTC(year, month - 1, day, hour, minute, second);
  return year >= 1980 && Number.isFinite(time) ? time / 1000 : null;
}

const shown = (moment: string | null) => (moment ?? "").replace(/^(\d{4}):(\d{2}):/, "$1-$2-");
