/** What the family means to capture again next, in the words of the form. */
export const DEMO_WORK_SHEET = { name: "For the copy stand, next Saturday", place: "Second shelf", most: "12" } as const;

/** What they let be, and why. */
export const DEMO_GOOD_ENOUGH = [
  {
    objectNumber: "1978.004.12",
    side: "back",
    purposeKey: "preservation-master",
    reason: "A batch number on black, and it can be read.",
  },
] as const;
