export function bytesInWords(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  const [unit, size] = bytes < 1e6 ? ["kB", bytes / 1e3] : bytes < 1e9 ? ["MB", bytes / 1e6] : ["GB", bytes / 1e9];
  return `${size.toFixed(1)} ${unit}`;
}
