import type { CautionRule } from "./caution.ts";
import { ACTION_CAUTIONS } from "./cautions/actions.ts";
import { STAND_CAUTIONS } from "./cautions/at-the-stand.ts";
import { ENCLOSURE_CAUTIONS } from "./cautions/enclosure.ts";
import { FOUND_CAUTIONS } from "./cautions/found.ts";
import { GENERAL_CAUTIONS } from "./cautions/general.ts";
import { INSTANT_CAUTIONS } from "./cautions/instant.ts";
import { PROCESS_CAUTIONS } from "./cautions/process.ts";

/** Every caution, as plain data: facts in our own words, with the text they were read in. */
export const CAUTION_TABLE: readonly CautionRule[] = [
  ...FOUND_CAUTIONS,
  ...INSTANT_CAUTIONS,
  ...PROCESS_CAUTIONS,
  ...ENCLOSURE_CAUTIONS,
  ...GENERAL_CAUTIONS,
  ...STAND_CAUTIONS,
  ...ACTION_CAUTIONS,
];
