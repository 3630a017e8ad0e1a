/** What a JPEG file says about its compression before its image data. */
export type JpegTables = {
  /** quantisation of luminance and of colour, in natural order (row = vertical frequency); colour is null in a grey file */
  readonly luminance: readonly number[];
  readonly colour: readonly number[] | null;
  /** horizontal × vertical sampling of each component, e.g. "2×2 1×1 1×1" */
  readonly sampling: string | null;
  /** stored in several passes, coarse first */
  readonly isProgressive: boolean;
};

/** Null when the header is no JPEG or holds no whole table. Layout: ITU-T T.81 | ISO/IEC 10918-1, Annex B. */
export function jpegTables(header: Uint8Array): JpegTables | null {
  if (header[0] !== 0xff || header[1] !== 0xd8) return null;
  const tables = new Map<number, number[]>();
  let components: Component[] = [];
  let isProgressive = false;
  let at = 2;
  while (at + 4 <= header.length && header[at] === 0xff) {
    const marker = header[at + 1] as number;
    if (marker === 0xff) {
      at++;
      continue;
    }
    if (marker === START_OF_SCAN) break;
    const length = ((header[at + 2] as number) << 8) | (header[at + 3] as number);
    const body = header.subarray(at + 4, at + 2 + length);
    if (marker === QUANTISATION_TABLES) readTables(body, tables);
    if (isFrame(marker)) {
      components = readComponents(body);
      isProgressive = PROGRESSIVE_FRAMES.includes(marker);
    }
    at += 2 + length;
  }
  const luminance = tables.get(components[0]?.table ?? 0);
  if (!luminance) return null;
  const colour = tables.get(components[1]?.table ?? 1) ?? null;
  const sampling = components.length > 0 ? components.map(({ across, down }) => `${across}×${down}`).join(" ") : null;
  return { luminance, colour: components.length === 1 ? null : colour, sampling, isProgressive };
}

type Component = { readonly table: number; readonly across: number; readonly down: number };

const START_OF_SCAN = 0xda;
const QUANTISATION_TABLES = 0xdb;
/** T.81, table B.1. */
const PROGRESSIVE_FRAMES = [0xc2, 0xc6, 0xca, 0xce];

/** Start of frame: C0 to CF without the Huffman, arithmetic and reserved markers C4, C8, CC. */
const isFrame = (marker: number) => marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

/** Natural index of each place in the zigzag order in which a file holds its tables (T.81, figure A.6). */
const ZIGZAG = [
  0, 1, 8, 16, 9, 2, 3, 10, 17, 24, 32, 25, 18, 11, 4, 5, 12, 19, 26, 33, 40, 48, 41, 34, 27, 20, 13, 6, 7, 14, 21, 28, 35, 42, 49, 56, 57,
  50, 43, 36, 29, 22, 15, 23, 30, 37, 44, 51, 58, 59, 52, 45, 38, 31, 39, 46, 53, 60, 61, 54, 47, 55, 62, 63,
];

/** One segment may hold several tables, each of 64 values of one or two bytes. */
function readTables(body: Uint8Array, tables: Map<number, number[]>): void {
  let at = 0;
  while (at < body.length) {
    const head = body[at++] as number;
    const bytes = head >> 4 === 0 ? 1 : 2;
    if (at + 64 * bytes > body.length) return;
    const table = new Array<number>(64).fill(0);
    for (const natural of ZIGZAG) {
      table[natural] = bytes === 1 ? (body[at] as number) : ((body[at] as number) << 8) | (body[at + 1] as number);
      at += bytes;
    }
    tables.set(head & 15, table);
  }
}

function readComponents(body: Uint8Array): Component[] {
  const count = body[5] ?? 0;
  return Array.from({ length: count }, (_, index) => 6 + 3 * index)
    .filter((at) => at + 3 <= body.length)
    .map((at) => ({ table: body[at + 2] as number, across: (body[at + 1] as number) >> 4, down: (body[at + 1] as number) & 15 }));
}
