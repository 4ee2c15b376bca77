import PDFDocument from 'pdfkit';
import { encodeIccProfile, rgbSpaces } from '../colour/index.ts';
import { brokenLines } from './broken-lines.ts';
import { type Run, TypeCase, type Weight } from './type-case.ts';

/** ISO 216, points of 1/72 inch. */
export const a4Pt = { width: 595.28, height: 841.89 } as const;
export const marginPt = 45;
export const innerPt: number = a4Pt.width - 2 * marginPt;

/** sRGB, each 0 to 1. Never a meaning alone. */
export type Ink = readonly [red: number, green: number, blue: number];
export const black: Ink = [0, 0, 0];
export const soft: Ink = [0.27, 0.27, 0.27];
export const hair: Ink = [0.6, 0.6, 0.6];

// Figures of one width: they are compared column by column.
const features: PDFKit.Mixins.TextOptions['features'] = ['tnum', 'kern'];

export interface PaperFacts {
  readonly title: string;
  /** The moment that stands in the file. */
  readonly atMs: number;
}

/** Of the type's own measures: 0.935 above the line, 0.265 below it. */
const lineHeight = 1.2;

/**
 * A document of A4 pages whose colours are all set by {@link fill} and {@link stroke} and whose type is embedded. It has no
 * page yet.
 */
export class Paper {
  readonly doc: PDFKit.PDFDocument;
  readonly #type: TypeCase;
  readonly #space: PDFKit.PDFKitReference;
  readonly #bytes: Promise<Uint8Array>;

  constructor({ title, atMs }: PaperFacts) {
    const at = new Date(atMs);
    this.doc = new PDFDocument({
      autoFirstPage: false,
      size: 'A4',
      // Lines end where we say: a page is never begun by a line that is too low.
      margin: 0,
      pdfVersion: '1.7',
      subset: 'PDF/A-2b',
      lang: 'en',
      displayTitle: true,
      info: { Title: title, Creator: 'Setside', Producer: 'Setside', CreationDate: at, ModDate: at },
    });
    this.#type = new TypeCase(this.doc);
    const profile = this.doc.ref({ N: 3 });
    profile.end(Buffer.from(encodeIccProfile(rgbSpaces.srgb, { version: 2 })));
    this.#space = profile;
    this.#bytes = collect(this.doc);
  }

  page(): void {
    this.doc.addPage();
    this.doc.page.colorSpaces.Paper = ['ICCBased', this.#space];
  }

  /**
   * A line of text with its left top corner at a place, points from the left top of the page; gives how high it is. With a
   * width it becomes as many lines as it needs. Letters of all scripts that the type has may be mixed.
   */
  line(
    text: string,
    at: { x: number; y: number },
    how: { size: number; weight?: Weight; ink?: Ink; width?: number },
  ): number {
    const { size, weight = 'regular', ink = black, width } = how;
    const lines =
      width === undefined ? [text] : brokenLines(text, (part) => this.widthOf(part, size, weight) <= width);
    this.fill(ink);
    let { y } = at;
    for (const line of lines) {
      let { x } = at;
      for (const run of this.#type.runs(line, weight)) {
        const wide = this.#take(run, size);
        this.doc.text(run.text, x, y, { features, lineBreak: false });
        x += wide;
      }
      y += lineHeight * size;
    }
    return y - at.y;
  }

  widthOf(text: string, size: number, weight: Weight): number {
    return this.#type.runs(text, weight).reduce((sum, run) => sum + this.#take(run, size), 0);
  }

  /** Letters that were to be printed and that the type does not have; each is printed as {@link standIn}. */
  get lacking(): readonly string[] {
    return this.#type.lacking;
  }

  /** Takes the type of a run in hand; gives how wide it will be. */
  #take({ font, text }: Run, size: number): number {
    return this.doc.font(font).fontSize(size).widthOfString(text, { features });
  }

  rule(y: number, widthPt: number, ink: Ink): void {
    this.doc.addContent(`/Paper CS ${ink.join(' ')} SCN`);
    this.doc
      .lineWidth(widthPt)
      .moveTo(marginPt, y)
      .lineTo(marginPt + innerPt, y)
      .stroke();
  }

  fill(ink: Ink): void {
    this.doc.addContent(`/Paper cs ${ink.join(' ')} scn`);
  }

  /** Ends the document. */
  bytes(): Promise<Uint8Array> {
    this.doc.end();
    return this.#bytes;
  }
}

function collect(doc: PDFKit.PDFDocument): Promise<Uint8Array> {
  const parts: Buffer[] = [];
  return new Promise((resolve, reject) => {
    doc.on('data', (part: Buffer) => parts.push(part));
    doc.on('end', () => resolve(Buffer.concat(parts)));
    doc.on('error', reject);
  });
}
