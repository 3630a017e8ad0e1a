import type { Method } from "../capture/method.ts";
import type { Shortfall } from "../master/judgement.ts";
import type { Advice } from "./recapture-line.ts";

export type Failing = Shortfall & { readonly value: number; readonly method: Method | null; readonly isCamera: boolean };

const OPTICS = "law of reflection (common practice for the lamps)";
const PRACTICE = "common practice, no source";

/** Usual settings of scanners, from low to high. */
const SCANNER_STEPS_PPI = [400, 600, 800, 1200];

/** What to change for each measure that falls short. A measure without a line has no cure in the capture. */
export const ADVICE_BY_MEASURE: Readonly<Record<string, (failing: Failing) => readonly Advice[]>> = {
  samplingPpi: ({ value, required, method, isCamera }) => {
    const ratio = (required / value).toFixed(2);
    if (isCamera)
      return [
        {
          sentence: `Move the camera closer, or use a longer lens, until the print takes up ${ratio} times as much of the frame in each direction (${required.toFixed(0)} / ${value.toFixed(0)} ppi); where the frame is full already, use a camera with more pixels.`,
          source: "definition of sampling: pixels over inches of the print",
        },
      ];
    const step = SCANNER_STEPS_PPI.find((ppi) => ppi >= required * 1.02) ?? Math.ceil(required * 1.02);
    const scanner = method === null ? "For a scanner, set" : "Set";
    return [
      {
        sentence: `${scanner} it to ${step} ppi or more of its optical resolution; never let software enlarge the file.`,
        source: "36 CFR 1236.48: files must not be upsampled",
      },
    ];
  },
  sidesSeen: ({ method }) => marginAdvice(method),
  marginMm: ({ method }) => marginAdvice(method),
  keystonePercent: () => [LEVEL_THE_CAMERA],
  keystoneMm: () => [LEVEL_THE_CAMERA],
  skewDegrees: ({ required }) => [
    {
      sentence: `Turn the print until its edge runs along the frame, within ${required.toFixed(0)}°; do not turn the file in software.`,
      source: "FADGI 2016: no de-skewing in software at 4 star",
    },
  ],
  clippedHighlightsPercent: ({ value, isCamera }) =>
    isCamera
      ? [
          {
            sentence: `Expose less, by about ${value > 2 ? "one stop" : "half a stop"} to begin with, with exposure set by hand; the lost share does not tell how much is needed, so look again.`,
            source: PRACTICE,
          },
        ]
      : [
          {
            sentence:
              "Switch off automatic brightness and contrast of the scanner, and set its white point so that no paper white goes above L* 98.",
            source: "Metamorfoze 2.0: highest L* 98, as quoted by a Czech methodology",
          },
        ],
  clippedShadowsPercent: ({ value, isCamera }) =>
    isCamera
      ? [
          {
            sentence: `Expose more, by about ${value > 4 ? "one stop" : "half a stop"} to begin with, as far as the highlights allow, and save without added contrast.`,
            source: PRACTICE,
          },
        ]
      : [{ sentence: "Switch off automatic brightness and contrast of the scanner, and lower its black point.", source: PRACTICE }],
  missingLevelsPercent: ({ isCamera }) => [
    {
      sentence: `Keep the file as it came, without changes of tone or colour in 8 bits; ${isCamera ? "where it must be developed, save raw and develop in 16 bits" : "scan in 16 bits, and set tones in the scanner before the scan, not after it"}.`,
      source: PRACTICE,
    },
  ],
  glareAreaPercent: ({ isCamera }) => glareAdvice(isCamera),
  borderGlarePercent: ({ isCamera }) => glareAdvice(isCamera),
  glarePeakDeltaL: ({ isCamera }) => glareAdvice(isCamera),
  hazePercent: ({ isCamera }) => [
    {
      sentence: isCamera
        ? "Keep light off the lens with a hood, cover bright surroundings of the print with black card, clean the lens, and darken the room behind the camera."
        : "Clean the glass on both sides as far as it can be reached, and lay a dark sheet behind the print.",
      source: "veiling glare is light from outside the picture scattered in lens and glass (common practice for the remedies)",
    },
  ],
  moirePercent: ({ isCamera }) => [
    {
      sentence: isCamera
        ? "Go nearer, so that texture or screen is shown whole by more pixels, or turn the print by 5 to 15° in the frame; light it from both sides to flatten a texture."
        : "Scan at twice the sampling or more, or lay the print turned by 5 to 15°; make the picture smaller only afterwards.",
      source: "a pattern finer than two pixels beats with them, and the beat hangs on the angle between both (sampling theorem)",
    },
  ],
  lossless: ({ isCamera }) => [
    {
      sentence: `${isCamera ? "Save raw files or TIFF" : "Save TIFF"}, not JPEG. Turning this JPEG into a TIFF brings nothing back: what was thrown away stays away.`,
      source: "36 CFR 1236.48: TIFF, lossless JPEG 2000 or PNG, never transcoded",
    },
  ],
  effectiveBitDepth: ({ isCamera }) => [
    {
      sentence: isCamera ? "Save raw files, and develop them in 16 bits." : "Scan in 16 bits per channel (48-bit colour).",
      source: "FADGI 2016, note: masters in 16 bit from 3 star on",
    },
  ],
  detailCyPerMm: ({ isCamera }) => sharpnessAdvice(isCamera),
  sfr50CyPerMm: ({ isCamera }) => sharpnessAdvice(isCamera),
  sfr10CyPerMm: ({ isCamera }) => sharpnessAdvice(isCamera),
  samplingEfficiencyPercent: ({ isCamera }) => sharpnessAdvice(isCamera),
  focusFalloffPercent: ({ isCamera }) =>
    isCamera
      ? [
          {
            sentence:
              "Level the camera until its sensor is parallel to the print: a small mirror laid where the print will lie must show the lens in the middle of the frame. Then stop down by one step, and focus between the middle and a corner.",
            source: "depth of field reaches both ways from the plane of focus; common practice for the mirror",
          },
        ]
      : [
          {
            sentence:
              "Let the print lie evenly on the glass by its own weight: do not press it. Where it does not touch all round, use a camera on a copy stand.",
            source: "a scanner's depth of field is a few mm (common practice)",
          },
        ],
  motionMm: ({ isCamera }) => [
    {
      sentence: isCamera
        ? "Put the camera on a firm stand, release by cable or self-timer, and use more light for a shorter exposure."
        : "Let nothing touch the scanner or the print while it scans, and see that the print cannot slide.",
      source: PRACTICE,
    },
  ],
  sharpeningOvershootPercent: () => [
    {
      sentence: "Switch off sharpening in the device and in the software.",
      source: "FADGI 2016: maximum of the MTF at most 1.0 at 4 star",
    },
  ],
  evennessPercent: ({ isCamera }) => evennessAdvice(isCamera),
  borderLightnessSpreadPercent: ({ isCamera }) => evennessAdvice(isCamera),
  borderCastA: () => CAST_ADVICE,
  borderCastB: () => CAST_ADVICE,
  borderCastChroma: () => CAST_ADVICE,
  noiseDeltaL: ({ isCamera }) =>
    isCamera
      ? [
          {
            sentence: "Use the lowest ISO speed, with more light or a longer exposure on a firm stand.",
            source: "photon noise falls with the square root of the light",
          },
        ]
      : [{ sentence: "Scan several times over where the scanner offers it, and without added contrast.", source: PRACTICE }],
  streakCount: ({ isCamera }) => streakAdvice(isCamera),
  streakDeltaL: ({ isCamera }) => streakAdvice(isCamera),
  bandingDeltaL: ({ isCamera }) => [
    isCamera
      ? {
          sentence:
            "Use lamps that do not flicker, or expose for a whole number of periods of the mains (1/50 s or 1/25 s at 50 Hz, 1/60 s or 1/30 s at 60 Hz), and use the mechanical shutter.",
          source: "lamps on the mains flicker at twice its frequency; common practice for the shutter",
        }
      : {
          sentence:
            "Let the lamp warm up, stand the scanner where nothing shakes it, and scan without stops; where the lines stay, use another device, since a worn transport is not cured by a setting.",
          source: PRACTICE,
        },
  ],
  misregistrationPx: ({ isCamera }) => [
    {
      sentence: isCamera
        ? "Use a lens made for close distances, stopped down by two stops, with the print in the middle of the frame; and keep the camera still between exposures where the frame is put together from several."
        : "Scan at the scanner's own optical resolution, on a firm table, and have the scanner looked at if the colours still lie apart.",
      source: PRACTICE,
    },
  ],
  ringAreaPercent: ({ isCamera }) => [
    {
      sentence: isCamera
        ? "Take away the glass that touches the print, or keep the print a hair's breadth off it with a window mat."
        : "Keep the print off the glass with a window mat, or capture it with a camera on a copy stand; do not press it flat. Turned by 90°, rings move and the picture does not.",
      source: "Newton's rings need a gap of a few thousandths of a mm; common practice for the mat",
    },
  ],
  dustPerCm2: ({ isCamera }) => dustAdvice(isCamera),
  scratchLengthMm: ({ isCamera }) => dustAdvice(isCamera),
  scaleErrorPercent: () => [
    {
      sentence: "Lay a ruler beside the print, and let the file claim the pixels per inch that it shows.",
      source: "36 CFR 1236.50: reproduction scale within ±2 %",
    },
  ],
  jpegQuality: () => [{ sentence: "Save TIFF or raw; or, where only JPEG is possible, at the highest quality.", source: PRACTICE }],
  doubleSaveSigma: () => ORIGINAL_ADVICE,
  processingSignCount: () => ORIGINAL_ADVICE,
};

const marginAdvice = (method: Method | null): readonly Advice[] => [
  {
    sentence:
      method === "sheet-fed-scanner"
        ? "A sheet-fed scanner cuts at the edge of the sheet: lay the print on a plain ground instead, with 3 to 5 mm to spare on all four sides."
        : "Leave a margin of 3 to 5 mm round the print on all four sides, on a plain ground that is darker than its border.",
    source: "Metamorfoze 2.0, as quoted by a Czech methodology; dark ground: common practice",
  },
];

const LEVEL_THE_CAMERA: Advice = {
  sentence:
    "Level the camera until its sensor is parallel to the print: a small mirror laid where the print will lie must show the lens in the middle of the frame.",
  source: PRACTICE,
};

const glareAdvice = (isCamera: boolean): readonly Advice[] =>
  isCamera
    ? [
        {
          sentence:
            "Move lamps and windows out of the family of angles: nothing bright may stand where a mirror in place of the print would show it to the lens. Two lamps at 45° from the sides are usually clear of it where they stand far enough out: the larger the print, the lamps' faces and the curl, the farther. Switch off the flash.",
          source: OPTICS,
          needsPlan: true,
        },
        {
          sentence: "What still shines goes with crossed polarisers on lamps and lens; say so in the set-up, since they change contrast.",
          source: "Malus' law; common practice for saying so",
        },
      ]
    : [{ sentence: "Cover the scanner against the light of the room with a dark cloth that does not touch the print.", source: OPTICS }];

const streakAdvice = (isCamera: boolean): readonly Advice[] => [
  isCamera
    ? {
        sentence:
          "Take a frame of an even white card: lines in the same places come from the sensor, and the camera's maker must cure them.",
        source: PRACTICE,
      }
    : {
        sentence:
          "Clean the strip of glass over the sensor at the places that the reading lists (mm from the edge of the frame), with the device switched off, then let it calibrate itself; scan an empty white sheet to see that the lines are gone.",
        source: "a streak stays in its place of the frame, so its cause lies on the strip; common practice for the cure",
      },
];

const dustAdvice = (isCamera: boolean): readonly Advice[] => [
  {
    sentence: isCamera
      ? "Blow loose dust off with a rubber bulb, never with the mouth or compressed gas, and capture again; what stays in the same place of the print is part of it: record it as a finding, and do not let software remove it."
      : "Wipe the glass with a clean lint-free cloth and let it dry before the print is laid down; blow loose dust off the print with a rubber bulb. What stays in the same place of the print is part of it: record it as a finding, and do not let software remove it.",
    source: "FADGI 2016: no dust removal on masters; common practice for the bulb and the cloth",
  },
];

const sharpnessAdvice = (isCamera: boolean): readonly Advice[] =>
  isCamera
    ? [
        {
          sentence:
            "Focus on the print itself in the magnified view, stop down to a middle aperture (about f/5.6 to f/8), and release without touching the camera.",
          source: "best aperture by test (FADGI 2016); common practice for the numbers",
        },
      ]
    : [
        {
          sentence:
            "Clean the glass, and let the print lie by its own weight: do not press it. If it stays soft where it does not touch, use a camera on a copy stand.",
          source: PRACTICE,
        },
      ];

const evennessAdvice = (isCamera: boolean): readonly Advice[] =>
  isCamera
    ? [
        {
          sentence:
            "Put two lamps of one kind on opposite sides, at 45° and the same distance, and further away if there is room: one lamp alone falls off across the print.",
          source: "inverse square and cosine law; common practice for the angle",
        },
      ]
    : [{ sentence: "Keep the print away from the ends of the scanner bed, and let the lamp warm up.", source: PRACTICE }];

const CAST_ADVICE: readonly Advice[] = [
  {
    sentence:
      "Use one kind of light only, and set the white balance on a grey card in that light; do not set it on the border, since old paper is yellow in truth.",
    source: PRACTICE,
  },
];

const ORIGINAL_ADVICE: readonly Advice[] = [
  {
    sentence: "Fetch the file from the device itself, by cable or card, not from a message, a web site or an editing program.",
    source: PRACTICE,
  },
];
