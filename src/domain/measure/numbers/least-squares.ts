/**
 * Solves a small square system by Gaussian elimination with partial pivoting. `matrix` is n × n, row by
 * row; null when it is singular.
 */
export function solve(matrix: readonly number[], right: readonly number[]): number[] | null {
  const n = right.length;
  const rows: number[][] = [];
  for (let row = 0; row < n; row++) rows.push([...matrix.slice(row * n, row * n + n), right[row] as number]);
  for (let column = 0; column < n; column++) {
    let best = column;
    for (let row = column + 1; row < n; row++) if (Math.abs(at(rows, row, column)) > Math.abs(at(rows, best, column))) best = row;
    const pivot = rows[best] as number[];
    if (!(Math.abs(pivot[column] as number) > 1e-12)) return null;
    rows[best] = rows[column] as number[];
    rows[column] = pivot;
    for (let row = 0; row < n; row++) {
      if (row === column) continue;
      const factor = at(rows, row, column) / (pivot[column] as number);
      const target = rows[row] as number[];
      for (let k = column; k <= n; k++) target[k] = (target[k] as number) - factor * (pivot[k] as number);
    }
  }
  return rows.map((row, index) => (row[n] as number) / (row[index] as number));
}

const at = (rows: readonly number[][], row: number, column: number) => rows[row]?.[column] as number;
