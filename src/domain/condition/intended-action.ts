/** What somebody means to do with a print besides taking it out, of which everything that is said holds, and capturing it by a method. */
export const INTENDED_ACTIONS = ["glass-over-it", "hot-lamps", "post", "display", "freeze"] as const;
export type IntendedAction = (typeof INTENDED_ACTIONS)[number];

/** Each as it follows “to”. */
export const ACTION_LABELS: Readonly<Record<IntendedAction, string>> = {
  "glass-over-it": "Lay glass over it, as under a camera",
  "hot-lamps": "Light it with lamps that grow hot",
  post: "Send it by post",
  display: "Put it on display",
  freeze: "Freeze it",
};
