/** Decoded pixels, upright, as they leave a decoder that knows nothing of colour profiles. */
export type BarePixels = {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly channels: 1 | 3;
  readonly data: Uint8Array | Uint16Array;
};

type Tag = readonly [tag: number, type: 3 | 4 | 7, count: number, value: number];

/**
 * Wraps pixels and their ICC profile as an uncompressed TIFF in memory, so that the rest of the
 * program reads every kind of file in one way and with its true colours (TIFF 6.0; tag 34675: ICC.1 Annex B.2).
 */
export function memoryTiff({ widthPx, heightPx, channels, data }: BarePixels, icc: Buffer | null): Buffer {
  const body = Buffer.from(data.buffer, data.byteOffset, data.byteLength);
  const bits = data.BYTES_PER_ELEMENT * 8;
  const bitsAt = 8 + body.length + (body.length & 1);
  const iccAt = bitsAt + 6;
  const directoryAt = iccAt + (icc ? icc.length + (icc.length & 1) : 0);
  const tags: Tag[] = [
    [256, 4, 1, widthPx],
    [257, 4, 1, heightPx],
    channels === 1 ? [258, 3, 1, bits] : [258, 3, 3, bitsAt],
    [259, 3, 1, 1],
    [262, 3, 1, channels === 1 ? 1 : 2],
    [273, 4, 1, 8],
    [277, 3, 1, channels],
    [278, 4, 1, heightPx],
    [279, 4, 1, body.length],
    [284, 3, 1, 1],
    ...(icc ? [[34675, 7, icc.length, iccAt] as const] : []),
  ];
  const file = Buffer.alloc(directoryAt + 2 + tags.length * 12 + 4);
  file.write("II*\0", 0, "latin1");
  file.writeUInt32LE(directoryAt, 4);
  body.copy(file, 8);
  for (let channel = 0; channel < 3; channel++) file.writeUInt16LE(bits, bitsAt + channel * 2);
  icc?.copy(file, iccAt);
  writeDirectory(file, directoryAt, tags);
  return file;
}

function writeDirectory(file: Buffer, at: number, tags: readonly Tag[]): void {
  file.writeUInt16LE(tags.length, at);
  for (const [index, [tag, type, count, value]] of tags.entries()) {
    const entry = at + 2 + index * 12;
    file.writeUInt16LE(tag, entry);
    file.writeUInt16LE(type, entry + 2);
    file.writeUInt32LE(count, entry + 4);
    if (type === 3 && count === 1) file.writeUInt16LE(value, entry + 8);
    else file.writeUInt32LE(value, entry + 8);
  }
}
