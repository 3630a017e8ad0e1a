import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { create } from "fontkit";
import PDFDocument from "pdfkit";

const fontFile = (style: "400Regular" | "700Bold"): Buffer =>
  readFileSync(fileURLToPath(import.meta.resolve(`@expo-google-fonts/noto-sans/${style}/NotoSans_${style}.ttf`)));

/** What stands for a letter that the font does not have. */
const NO_LETTER = "\uFFFD";

const A4 = { widthPt: 595.28, heightPt: 841.89 };
const MARGIN_PT = 54;
/** The page's number stands below this. */
const FOOT_PT = 60;

export const LEFT_PT = MARGIN_PT;
export const TEXT_WIDTH_PT = A4.widthPt - 2 * MARGIN_PT;
const BOTTOM_PT = A4.heightPt - FOOT_PT;

type Element = PDFKit.PDFStructureElement;
type Words = {
  readonly size?: number;
  readonly bold?: boolean;
  readonly soft?: boolean;
  readonly before?: number;
  readonly indent?: number;
};

/**
 * Sheets of paper that are written from top to bottom: A4, tagged for reading aloud, all fonts embedded, with the settings of
 * PDF/A-2a (ISO 19005-2; no validator was run). Letters in Latin, Greek, Cyrillic and Devanagari; others are counted in `lettersMissing`.
 */
export class ReportSheet {
  readonly document: PDFKit.PDFDocument;
  /** letters of other scripts, shown as a mark */
  readonly lettersMissing = new Set<string>();
  readonly #font = create(fontFile("400Regular"));
  readonly #whole: Element;
  #section: Element;

  constructor({ title, author, at }: { title: string; author: string; at: Date }) {
    this.document = new PDFDocument({
      size: "A4",
      margins: { top: MARGIN_PT, left: MARGIN_PT, right: MARGIN_PT, bottom: FOOT_PT },
      pdfVersion: "1.7",
      subset: "PDF/A-2a",
      tagged: true,
      lang: "en-GB",
      displayTitle: true,
      bufferPages: true,
      info: { Title: this.letters(title), Author: this.letters(author), Creator: "Solander", CreationDate: at },
      font: fontFile("400Regular") as unknown as string,
    });
    this.document.registerFont("regular", fontFile("400Regular")).registerFont("bold", fontFile("700Bold"));
    this.#whole = this.document.struct("Document");
    this.#section = this.#whole;
    this.document.addStructure(this.#whole);
  }

  /** Everything until the next section belongs together for who listens to it. */
  section(): void {
    if (this.#section !== this.#whole) this.#section.end();
    this.#section = this.document.struct("Sect");
    this.#whole.add(this.#section);
  }

  heading(level: 1 | 2 | 3, text: string): void {
    const size = { 1: 20, 2: 13, 3: 10.5 }[level];
    this.keepTogether(level === 1 ? 60 : 70);
    this.#write(`H${level}`, [[text, { bold: true }]], { size, before: { 1: 0, 2: 14, 3: 9 }[level] });
  }

  paragraph(text: string, words: Words = {}): void {
    if (text !== "") this.#write("P", [[text, words]], words);
  }

  /** A name in bold and what is so named, in one line where it fits. */
  fact(name: string, value: string, words: Words = {}): void {
    this.#write(
      "P",
      [
        [`${name}: `, { bold: true }],
        [value, words],
      ],
      words,
    );
  }

  /** Begins a new page where less than this is left. */
  keepTogether(heightPt: number): void {
    if (this.document.y + heightPt > BOTTOM_PT) this.document.addPage();
  }

  /** Room for something drawn, said in words for who does not see it. Goes on below it. */
  figure(alt: string, heightPt: number, draw: (topPt: number) => void): void {
    this.keepTogether(heightPt);
    const top = this.document.y;
    this.#section.add(this.document.struct("Figure", { alt: this.letters(alt) }, () => draw(top)));
    this.document.x = LEFT_PT;
    this.document.y = top + heightPt;
  }

  /** The text with every letter that the font lacks replaced. */
  letters(text: string): string {
    return [...text.normalize("NFC")]
      .map((letter) => {
        if (letter === "\n" || this.#font.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0)) return letter;
        this.lettersMissing.add(letter);
        return NO_LETTER;
      })
      .join("");
  }

  /** Numbers the pages and hands over the finished file. */
  async finish(foot: string): Promise<Buffer> {
    if (this.#section !== this.#whole) this.#section.end();
    this.#whole.end();
    const { count } = this.document.bufferedPageRange();
    for (let page = 0; page < count; page++) {
      this.document.switchToPage(page);
      // below the margin, where text would otherwise begin a new page
      this.document.page.margins.bottom = 0;
      this.document.markContent("Artifact", { type: "Pagination" });
      this.document.font("regular").fontSize(8).fillColor("#444444");
      const line = this.letters(`${foot}, page ${page + 1} of ${count}`);
      this.document.text(line, LEFT_PT, BOTTOM_PT + 18, { width: TEXT_WIDTH_PT, lineBreak: false });
      this.document.endMarkedContent();
    }
    const chunks: Buffer[] = [];
    this.document.on("data", (chunk: Buffer) => chunks.push(chunk));
    const ended = new Promise<void>((resolve, reject) => this.document.on("end", resolve).on("error", reject));
    this.document.end();
    await ended;
    return Buffer.concat(chunks);
  }

  #write(tag: string, pieces: readonly (readonly [string, Words])[], { size = 9.5, before = 3, indent = 0 }: Words): void {
    this.document.y += before;
    // a page that begins within a line would lose its bold letters
    this.keepTogether(1.5 * size);
    const element = this.document.struct(tag, {}, () => {
      for (const [index, [text, { bold, soft }]] of pieces.entries()) {
        this.document
          .font(bold ? "bold" : "regular")
          .fontSize(size)
          .fillColor(soft ? "#444444" : "black");
        const rest = { width: TEXT_WIDTH_PT - indent, lineGap: 1.2, continued: index < pieces.length - 1 };
        if (index === 0) this.document.text(this.letters(text), LEFT_PT + indent, this.document.y, rest);
        else this.document.text(this.letters(text), rest);
      }
    });
    this.#section.add(element);
    this.document.x = LEFT_PT;
  }
}
