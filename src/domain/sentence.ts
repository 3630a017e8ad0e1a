/** Words with a capital at their beginning. */
export const capital = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;

/** Words as a sentence of their own: with a capital, and a full stop where none stands. */
export const asSentence = (words: string): string => `${capital(words)}${words.endsWith(".") ? "" : "."}`;
