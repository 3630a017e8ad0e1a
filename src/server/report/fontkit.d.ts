/** The few functions used of a package that brings no types. */
declare module "fontkit" {
  export function create(bytes: Uint8Array): { hasGlyphForCodePoint(codePoint: number): boolean };
}
