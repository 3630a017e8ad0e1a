/** L* that a print's paper has at least, as a capture shows it; aged and underexposed paper included. Own. */
export const LEAST_PAPER_LIGHTNESS = 65;
