import type { OriginalKind } from "#domain/capture/capture.ts";
import type { MethodHints } from "#domain/capture/settings.ts";
import { done, type Outcome, type Refusal, refused } from "#domain/outcome.ts";
import type { NewOriginal } from "#drizzle/queries/captures.ts";
import { decodePicture } from "../images/decode.ts";
import { kindOfFile } from "../images/kind-of-file.ts";
import { MOST_PIXELS, READING, sharp } from "../images/policy.ts";
import { profileName } from "../images/profile.ts";
import { tooManyPixels, UnreadableImage } from "../images/unreadable-image.ts";
import { readSettings } from "./read-settings.ts";

export type Inspected = { readonly facts: Omit<NewOriginal, "sha256" | "bytes" | "originalName">; readonly hints: MethodHints };

/**
 * Looks at a copied file before it is kept: what kind it is by its bytes, whether it decodes to its
 * end, and what it says of itself. A file that fails is refused in words; nothing of it stays.
 */
export async function inspect(file: string, name: string): Promise<Outcome<Inspected>> {
  const told = await kindOfFile(file);
  if (told.kind === null) return refused(unknownKind(name, told.other));
  try {
    return done(await inspectKind(file, told.kind));
  } catch (error) {
    if (error instanceof UnreadableImage) return refused({ about: name, happened: `The file ${error.trouble}`, remedy: error.remedy });
    throw error;
  }
}

async function inspectKind(file: string, kind: OriginalKind): Promise<Inspected> {
  const metadata =
    kind === "raw"
      ? null
      : await sharp(file, READING)
          .metadata()
          .catch(() => null);
  const { width, height } = metadata ?? {};
  if (width && height && width * height > MOST_PIXELS) throw tooManyPixels(width, height, MOST_PIXELS);
  const { picture } = await decodePicture(file, kind);
  const { settings, hints, metadataState, metadataNote } = await readSettings(file, kind, metadata?.exif);
  const density = metadata?.density && metadata.density > 1 ? metadata.density : null;
  return {
    facts: {
      ...settings,
      claimedPpiX: settings.claimedPpiX ?? density,
      claimedPpiY: settings.claimedPpiY ?? density,
      kind,
      widthPx: picture.widthPx,
      heightPx: picture.heightPx,
      bitsPerChannel: metadata?.bitsPerSample ?? (picture.maxCode === 255 ? 8 : 16),
      channels: metadata?.channels ?? 3,
      colourSpace: metadata?.space ?? (kind === "raw" ? "camera" : "not said"),
      profileName: metadata?.icc ? await profileName(metadata.icc) : null,
      metadataState,
      metadataNote,
    },
    hints,
  };
}

const TAKEN = "Taken in are JPEG, PNG, WebP, AVIF, TIFF, HEIC and camera raw (DNG) files.";

const unknownKind = (about: string, other: string | null): Refusal => ({
  about,
  happened: other ? `The file is ${other}, which is not taken in.` : "The file is not a picture, or of a kind that is not known.",
  remedy: `${TAKEN} Save the picture as one of these, best as TIFF, and add it again.`,
});
