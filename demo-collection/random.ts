/** Seeded numbers: the same seed gives the same collection on every machine. */
export type Random = () => number;

/** Uniform numbers in [0, 1): mulberry32, public domain, from memory. */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A seed from a name, so that a print's grain stays its own in every capture of it (FNV-1a). */
export function seedOf(name: string): number {
  let hash = 2166136261;
  for (let i = 0; i < name.length; i++) hash = Math.imul(hash ^ name.charCodeAt(i), 16777619);
  return hash >>> 0;
}

const BELLS = bells();

/** Normal numbers of standard deviation 1, drawn from a table: a capture needs millions. */
export function normals(seed: number): Random {
  let state = (seed | 1) >>> 0;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return BELLS[(state >>> 8) & 0xffff] as number;
  };
}

function bells(): Float32Array {
  const random = seeded(20);
  // Box and Muller, Annals of Mathematical Statistics 29 (1958) 610
  return Float32Array.from({ length: 65536 }, () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random()));
}

/** Smooth noise in [-1, 1] with features about one unit wide. */
export function smoothNoise(x: number, y: number, seed: number): number {
  const left = Math.floor(x);
  const top = Math.floor(y);
  const u = ease(x - left);
  const v = ease(y - top);
  const upper = lattice(left, top, seed) * (1 - u) + lattice(left + 1, top, seed) * u;
  const lower = lattice(left, top + 1, seed) * (1 - u) + lattice(left + 1, top + 1, seed) * u;
  return upper * (1 - v) + lower * v;
}

const ease = (t: number): number => t * t * (3 - 2 * t);

function lattice(x: number, y: number, seed: number): number {
  let hash = Math.imul(x, 374761393) ^ Math.imul(y, 668265263) ^ Math.imul(seed, 974634777);
  hash = Math.imul(hash ^ (hash >>> 13), 1274126177);
  return ((hash ^ (hash >>> 16)) >>> 0) / 2147483648 - 1;
}
