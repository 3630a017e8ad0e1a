/** The ways of making a capture that the rest of the program tells apart. */
export const METHODS = ["phone-camera", "sheet-fed-scanner", "flatbed-scanner", "copy-stand-camera"] as const;

export type Method = (typeof METHODS)[number];

export const METHOD_LABELS: Readonly<Record<Method, string>> = {
  "phone-camera": "Phone camera",
  "sheet-fed-scanner": "Sheet-fed scanner",
  "flatbed-scanner": "Flatbed scanner",
  "copy-stand-camera": "Camera on copy stand",
};
