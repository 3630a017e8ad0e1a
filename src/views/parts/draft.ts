/**
 * The attributes by which `draft.js` keeps in the browser what is typed into a form.
 * @param key which form of which record, the same whenever it is opened
 * @param after what stood when it was opened, e.g. the last survey's id: once a sent form has been kept, it has changed
 * @param isAnswer the form was sent and comes back: what it shows is newer than the draft
 */
export const draft = (key: string, after: string | number, isAnswer: boolean) => ({
  "data-draft": key,
  "data-draft-after": String(after),
  ...(isAnswer ? { "data-draft-answer": "" } : {}),
});

/**
 * The same for one of several small forms on a page, which are sent one by one: the others are filled in again without a word.
 * @param key which form of which record; what is sent is forgotten
 */
export const draftOfOne = (key: string) => ({ "data-draft": key, "data-draft-one-of-many": "" });
