/**
 * A mask (1 = in, row by row) after growing and shrinking in turn: a step of 2 takes in all places within a square of two to
 * each side of one that is in, a step of -2 leaves out those within it of one that is out. What lies beyond the mask changes
 * nothing. Worked out on one bit a place, 32 at a time.
 */
export function reshaped(mask: Uint8Array, columns: number, rows: number, steps: readonly number[]): Uint8Array {
  const words = Math.ceil(columns / 32);
  const bits = packed(mask, columns, rows, words);
  const across = new Int32Array(bits.length);
  // bits of the last word of a row that stand for no place
  const lastWord = columns % 32 === 0 ? -1 : (1 << (columns % 32)) - 1;
  for (const step of steps) {
    if (step < 0) turnOver(bits, words, lastWord);
    for (let pass = 0; pass < Math.abs(step); pass++) growByOne(bits, across, words, rows, lastWord);
    if (step < 0) turnOver(bits, words, lastWord);
  }
  return unpacked(bits, columns, rows, words);
}

function growByOne(bits: Int32Array, across: Int32Array, words: number, rows: number, lastWord: number): void {
  for (let start = 0; start < bits.length; start += words) {
    let before = 0;
    for (let word = 0; word < words; word++) {
      const at = start + word;
      const here = bits[at] as number;
      const after = word < words - 1 ? (bits[at + 1] as number) : 0;
      across[at] = here | (here << 1) | (before >>> 31) | (here >>> 1) | (after << 31);
      before = here;
    }
    across[start + words - 1] = (across[start + words - 1] as number) & lastWord;
  }
  for (let row = 0, at = 0; row < rows; row++) {
    const above = row > 0 ? words : 0;
    const below = row < rows - 1 ? words : 0;
    for (let word = 0; word < words; word++, at++)
      bits[at] = (across[at - above] as number) | (across[at] as number) | (across[at + below] as number);
  }
}

function turnOver(bits: Int32Array, words: number, lastWord: number): void {
  for (let at = 0; at < bits.length; at++) bits[at] = ~(bits[at] as number);
  for (let at = words - 1; at < bits.length; at += words) bits[at] = (bits[at] as number) & lastWord;
}

function packed(mask: Uint8Array, columns: number, rows: number, words: number): Int32Array {
  const bits = new Int32Array(words * rows);
  for (let row = 0, at = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, at++) {
      if (mask[at] === 0) continue;
      const word = row * words + (column >> 5);
      bits[word] = (bits[word] as number) | (1 << (column & 31));
    }
  }
  return bits;
}

function unpacked(bits: Int32Array, columns: number, rows: number, words: number): Uint8Array {
  const mask = new Uint8Array(columns * rows);
  for (let row = 0, at = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++, at++) mask[at] = ((bits[row * words + (column >> 5)] as number) >>> (column & 31)) & 1;
  }
  return mask;
}
