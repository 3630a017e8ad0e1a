/** A picture that cannot be read: a refusal, not a defect. The words are for the keeper. */
export class UnreadableImage extends Error {
  override name = "UnreadableImage";

  constructor(
    /** what is wrong, as the rest of a sentence that starts with the file's name: "is cut off …" */
    readonly trouble: string,
    readonly remedy: string,
    options?: ErrorOptions,
  ) {
    super(trouble, options);
  }
}

const DAMAGED = "is damaged or cut off: it could not be read to its end.";
const COPY_AGAIN = "Copy or export it again from where it came from, then take in the new file.";

export const damaged = (cause: unknown) => new UnreadableImage(DAMAGED, COPY_AGAIN, { cause });

export const missing = () =>
  new UnreadableImage("is not where it was kept.", "Bring it back from a backup into the collection's folder, then measure it again.");

export const tooManyPixels = (widthPx: number, heightPx: number, mostPixels: number) =>
  new UnreadableImage(
    `has ${megapixels(widthPx * heightPx)} megapixels, more than the ${megapixels(mostPixels)} that are read.`,
    "Scan it at a lower resolution, or in parts.",
  );

const megapixels = (pixels: number) => Math.round(pixels / 1e6).toLocaleString("en");
