import { measureInWords, valueInWords } from "../aim/measure-words.ts";
import { type CarePriority, type Factor, told } from "../storage/care-priority.ts";
import type { RecaptureLine, RecaptureReason } from "./recapture-line.ts";

export const PRIORITY_FACTORS = ["need", "care", "significance"] as const;
export type PriorityFactor = (typeof PRIORITY_FACTORS)[number];

/** What is captured first. Least and most say what it may be were all that is unknown at its best, and at its worst. */
export type RecapturePriority = {
  readonly score: number;
  readonly least: number;
  readonly most: number;
  readonly factors: Readonly<Record<PriorityFactor, Factor>>;
};

/** The parts of the care priority that speak of how soon the print may be worse; significance is a factor of its own here. */
const CARE_PARTS = ["condition", "activity", "climate"] as const;

/**
 * What to capture first: need x care x significance, each factor with its reason. Need is 1 to 4, care is condition x activity x
 * climate risk (1 to 36), significance 1 to 5. The idea of scoring and ranking: U.S. National Park Service, Conserve O Gram 19,
 * prioritising materials for duplication (value, risk, use). The scores and their product are our own.
 */
export function recapturePriority(line: Pick<RecaptureLine, "why" | "reasons">, care: CarePriority): RecapturePriority {
  const factors = { need: needOf(line), care: careOf(care), significance: care.factors.significance };
  const product = (of: "score" | "least" | "most") => PRIORITY_FACTORS.reduce((all, name) => all * factors[name][of], 1);
  return { score: product("score"), least: product("least"), most: product("most"), factors };
}

const NEVER_CAPTURED = 4;
const FAR_OFF = 3;
const SEVERAL = 2;
const ONE = 1;

function needOf({ why, reasons }: Pick<RecaptureLine, "why" | "reasons">): Factor {
  if (why === "no-capture") return told(NEVER_CAPTURED, "never captured");
  const far = reasons.find(isFarOff);
  if (far)
    return told(
      FAR_OFF,
      `${measureInWords(far.measure)} is ${valueInWords(far.measure, far.value ?? 0)} where ${valueInWords(far.measure, far.required)} is asked`,
    );
  const score = reasons.length > 1 ? SEVERAL : ONE;
  const because =
    reasons.length > 1 ? `short in ${reasons.length} measures` : `short in ${measureInWords(reasons[0]?.measure ?? "")} alone`;
  const unread = reasons.filter(({ notShown }) => notShown !== null);
  if (unread.length === 0) return told(score, because);
  // what is not shown may be good, or far off
  const least = reasons.length - unread.length > 1 ? SEVERAL : ONE;
  return { score, least, most: FAR_OFF, because: `${because}, ${unread.length} of them not shown`, isKnown: false };
}

/** Questions of yes or no, and counts of sides: half of them says nothing. */
const NO_SCALE = new Set(["lossless", "sidesSeen", "effectiveBitDepth", "processingSignCount"]);

/** Less than half of what is asked, or more than twice what is allowed. */
function isFarOff({ measure, sense, value, notShown, required }: RecaptureReason): boolean {
  if (value === null || notShown !== null || NO_SCALE.has(measure)) return false;
  return sense === "at-least" ? value < required / 2 : value > 2 * required;
}

function careOf({ factors }: CarePriority): Factor {
  const product = (of: "score" | "least" | "most") => CARE_PARTS.reduce((all, name) => all * factors[name][of], 1);
  return {
    score: product("score"),
    least: product("least"),
    most: product("most"),
    because: CARE_PARTS.map((name) => `${name} ${factors[name].score} (${factors[name].because})`).join(", "),
    isKnown: CARE_PARTS.every((name) => factors[name].isKnown),
  };
}
