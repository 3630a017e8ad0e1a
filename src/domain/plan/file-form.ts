/** Whether a file keeps every value: what JPEG throws away no later step brings back (36 CFR 1236.48). */
export const FILE_FORMS = { lossless: "Without loss (TIFF, PNG, raw)", lossy: "With loss (JPEG)" } as const;
export type FileForm = keyof typeof FILE_FORMS;

export const isFileForm = (text: string): text is FileForm => Object.hasOwn(FILE_FORMS, text);
