import { METHOD_LABELS, type Method } from "../capture/method.ts";
import type { Shortfall } from "../master/judgement.ts";
import { isOpenShortfall } from "../master/requirements.ts";
import { ADVICE_BY_MEASURE } from "./advice-by-measure.ts";
import type { Advice, RecaptureLine } from "./recapture-line.ts";

/** How the best capture was made, and what this print may be put through. */
export type Circumstances = {
  readonly method: Method | null;
  /** why this print must not be captured that way; null where it may */
  readonly refusal: (method: Method) => { readonly title: string; readonly cause: string; readonly source: string } | null;
};

/** Most faithful first; a sheet-fed scanner and a phone are never advised (FADGI 2016 lists neither for photographs). */
const ADVISABLE: readonly Method[] = ["copy-stand-camera", "flatbed-scanner"];

const FADGI_METHODS = "FADGI 2016, table Prints and Photographs: planetary scanner, digital camera or flatbed scanner";

/**
 * What to change so that the measure is met, by its physics and the method used. Never advises to
 * press, flatten or open a print, whatever would be gained.
 */
export function adviceOn(shortfall: Shortfall, circumstances: Circumstances): Advice[] {
  if (shortfall.value === null) return adviceOnNotShown(shortfall, circumstances);
  const { method } = circumstances;
  if (isOpenShortfall(shortfall) && shortfall.measure === "samplingPpi") return adviceOnOpenSampling(shortfall, circumstances);
  return [...(ADVICE_BY_MEASURE[shortfall.measure]?.({ ...shortfall, value: shortfall.value, method, isCamera: isCamera(method) }) ?? [])];
}

/** Ways to capture a print that was never captured, or was captured in a way that it must not be. */
export function adviceOnMethod({ method, refusal }: Circumstances): Advice[] {
  const forbidden = method === null ? null : refusal(method);
  const allowed = ADVISABLE.filter((each) => refusal(each) === null);
  const advice: Advice[] = [];
  if (method !== null && forbidden !== null)
    advice.push({
      sentence: `Do not use a ${inWords(method)} for this print again: ${forbidden.title}. ${forbidden.cause}`,
      source: forbidden.source,
    });
  if (method !== null && forbidden === null && method !== "sheet-fed-scanner") return advice;
  if (allowed.length === 0)
    advice.push({
      sentence: "Ask a conservator before this print is captured: its cautions leave no usual way.",
      source: "the cautions of this print",
    });
  else advice.push({ sentence: `Use a ${allowed.map(inWords).join(", or a ")}.`, source: FADGI_METHODS });
  return advice;
}

/** What a person at the stand is told for one line, with how it is to be captured now. */
export type AdviceForMethod = Pick<RecaptureLine, "reasons" | "advice">;

/**
 * Advice of a line for the method that is to be used. Where that is another kind of device than the best capture was made with, what
 * to change at the old one would mislead: what any first capture aims at stands in its place.
 */
export function adviceForMethod(line: RecaptureLine, method: Method | null, refusal: Circumstances["refusal"]): AdviceForMethod {
  const { best, reasons, advice } = line;
  if (best === null || best.method === null || method === null || isCamera(best.method) === isCamera(method)) return { reasons, advice };
  const first = adviceOnFirstCapture({ method: best.method, refusal });
  const further = first.filter(({ sentence }) => !advice.some((each) => each.sentence === sentence));
  return { reasons: reasons.map((reason) => ({ ...reason, advice: [] })), advice: [...advice, ...further] };
}

const isCamera = (method: Method | null): boolean => method === "phone-camera" || method === "copy-stand-camera";

/** How to capture it now: as before where that is a good way and allowed, else by the most faithful allowed; null where none is. */
export function methodToUse({ method, refusal }: Circumstances): Method | null {
  const allowed = ADVISABLE.filter((each) => refusal(each) === null);
  return allowed.find((each) => each === method) ?? allowed[0] ?? null;
}

/** A print without captures: what to aim at, and how. */
export const adviceOnFirstCapture = (circumstances: Circumstances): Advice[] => [
  ...adviceOnMethod(circumstances),
  {
    sentence: "Aim at 600 pixels per inch of the print, in 16 bits, saved as TIFF or raw, with a margin of 3 to 5 mm on all sides.",
    source: "FADGI 2016, 4 star, and its note on 16 bits; 36 CFR 1236.48; Metamorfoze 2.0 for the margin, as quoted",
  },
];

function adviceOnNotShown({ measure, notShown }: Shortfall, circumstances: Circumstances): Advice[] {
  if (measure === "samplingPpi")
    return [
      {
        sentence: "Measure the sheet with a ruler and enter its width and height: sampling is read from the size of the print.",
        source: "36 CFR 1236.46(a): device settings alone may not be relied on",
      },
      ...marginAdvice(circumstances),
    ];
  if (measure === "sidesSeen" || measure === "keystonePercent" || measure === "skewDegrees") return marginAdvice(circumstances);
  return [{ sentence: `Make it readable first: ${notShown ?? "no reason is known"}.`, source: "the reading itself" }];
}

/**
 * The size is known, or there would be no bound: a ruler brings nothing. “At least” is all that a sheet cut by the frame shows, so the whole sheet would
 * tell; and what would be done where it surely missed is never wrong.
 */
function adviceOnOpenSampling({ required, bound, value }: Shortfall, circumstances: Circumstances): Advice[] {
  const { method } = circumstances;
  const finer = isCamera(method)
    ? `Move the camera closer, as far as the whole print with its margin stays in the frame, until it surely reaches ${required.toFixed(0)} ppi; where that is not near enough, use a camera with more pixels.`
    : null;
  return [
    ...(bound === "lower" ? marginAdvice(circumstances) : []),
    ...(finer
      ? [{ sentence: finer, source: "definition of sampling: pixels over inches of the print" }]
      : (ADVICE_BY_MEASURE.samplingPpi?.({
          measure: "samplingPpi",
          sense: "at-least",
          required,
          bound,
          value: value ?? required,
          notShown: null,
          method,
          isCamera: false,
        }) ?? [])),
  ];
}

const marginAdvice = ({ method }: Circumstances): Advice[] => [
  ...(ADVICE_BY_MEASURE.sidesSeen?.({
    measure: "sidesSeen",
    sense: "at-least",
    required: 4,
    value: 0,
    bound: null,
    notShown: null,
    method,
    isCamera: false,
  }) ?? []),
];

/** Inside a sentence, e.g. “camera on copy stand”. */
const inWords = (method: Method): string => METHOD_LABELS[method].toLowerCase();
