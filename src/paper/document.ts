import PDFDocument from 'pdfkit';
import { encodeIccProfile, rgbSpaces } from '../colour/index.ts';
import { brokenLines } from './broken-lines.ts';
import { jpegSize } from './jpeg-size.ts';
import { type Face, type Run, TypeCase, type Weight } from './type-case.ts';

/** A4 of ISO 216 and Letter of ANSI Y14.1, points of 1/72 inch. */
export const paperSizesPt = {
  a4: { width: 595.28, height: 841.89 },
  letter: { width: 612, height: 792 },
} as const;
export type PaperSize = keyof typeof paperSizesPt;
export const a4Pt: { readonly width: number; readonly height: number } = paperSizesPt.a4;
export const marginPt = 45;
export const innerPt: number = a4Pt.width - 2 * marginPt;

/** sRGB, each 0 to 1. Never a meaning alone. */
export type Ink = readonly [red: number, green: number, blue: number];
export const black: Ink = [0, 0, 0];
export const soft: Ink = [0.27, 0.27, 0.27];
export const hair: Ink = [0.6, 0.6, 0.6];

// Figures of one width: they are compared column by column.
const features: PDFKit.Mixins.TextOptions['features'] = ['tnum', 'kern'];

/** Points from the left top of the page. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface PaperFacts {
  readonly title: string;
  /** The moment that stands in the file. */
  readonly atMs: number;
  /** A4 where it is left out. */
  readonly size?: PaperSize;
}

/** Of the type's own measures: 0.935 above the line, 0.265 below it. */
const lineHeight = 1.2;

/**
 * A document of pages whose colours are all set by {@link fill} and {@link ink} and whose type is embedded. It has no
 * page yet. Every part of it can be taken away as soon as it is written ({@link taken}), so that a long one is never held whole.
 */
export class Paper {
  readonly doc: PDFKit.PDFDocument;
  readonly #type: TypeCase;
  readonly #space: PDFKit.PDFKitReference;
  readonly sizePt: { readonly width: number; readonly height: number };
  #pictures = 0;

  constructor({ title, atMs, size = 'a4' }: PaperFacts) {
    this.sizePt = paperSizesPt[size];
    const at = new Date(atMs);
    this.doc = new PDFDocument({
      autoFirstPage: false,
      size: [this.sizePt.width, this.sizePt.height],
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
    how: { size: number; weight?: Weight; face?: Face; ink?: Ink; width?: number },
  ): number {
    const { size, weight = 'regular', face = 'prose', ink = black, width } = how;
    const lines =
      width === undefined
        ? [text]
        : brokenLines(text, (part) => this.widthOf(part, size, weight, face) <= width);
    this.fill(ink);
    let { y } = at;
    for (const line of lines) {
      let { x } = at;
      for (const run of this.#type.runs(line, weight, face)) {
        const wide = this.#take(run, size);
        this.doc.text(run.text, x, y, { features, lineBreak: false });
        x += wide;
      }
      y += lineHeight * size;
    }
    return y - at.y;
  }

  widthOf(text: string, size: number, weight: Weight, face: Face = 'prose'): number {
    return this.#type.runs(text, weight, face).reduce((sum, run) => sum + this.#take(run, size), 0);
  }

  /** Letters that were to be printed and that the type does not have; each is printed as {@link standIn}. */
  get lacking(): readonly string[] {
    return this.#type.lacking;
  }

  /** Takes the type of a run in hand; gives how wide it will be. */
  #take({ font, text }: Run, size: number): number {
    return this.doc.font(font).fontSize(size).widthOfString(text, { features });
  }

  rule(y: number, widthPt: number, ink: Ink, lengthPt: number = innerPt, x: number = marginPt): void {
    this.ink(ink);
    this.doc
      .lineWidth(widthPt)
      .moveTo(x, y)
      .lineTo(x + lengthPt, y)
      .stroke();
  }

  /** What areas and letters are filled with from here on. */
  fill(ink: Ink): void {
    this.doc.addContent(`/Paper cs ${ink.join(' ')} scn`);
  }

  /** What lines are drawn with from here on. */
  ink(ink: Ink): void {
    this.doc.addContent(`/Paper CS ${ink.join(' ')} SCN`);
  }

  /** A JPEG of three channels in sRGB, laid into a box as it is: nothing of it is encoded again. Throws `not-a-jpeg`. */
  picture(jpeg: Uint8Array, { x, y, width, height }: Box): void {
    const { widthPx, heightPx } = jpegSize(jpeg);
    const image = this.doc.ref({
      Type: 'XObject',
      Subtype: 'Image',
      Width: widthPx,
      Height: heightPx,
      ColorSpace: ['ICCBased', this.#space],
      BitsPerComponent: 8,
      Interpolate: false,
      Filter: 'DCTDecode',
    });
    image.end(Buffer.from(jpeg.buffer, jpeg.byteOffset, jpeg.byteLength));
    this.#pictures += 1;
    const name = `P${this.#pictures}`;
    this.doc.page.xobjects[name] = image;
    // An image fills the unit square from its left bottom up (ISO 32000-1 section 8.9.5); our pages run down.
    this.doc.save();
    this.doc.transform(width, 0, 0, -height, x, y + height);
    this.doc.addContent(`/${name} Do`);
    this.doc.restore();
  }

  /** What was written since it was last asked for; null where there is nothing. */
  taken(): Uint8Array | null {
    // A document that was never listened to gives what it holds, all in one.
    const part: unknown = this.doc.read();
    return part instanceof Uint8Array ? part : null;
  }

  /** Ends the document; the rest of it can be taken then. */
  end(): void {
    this.doc.end();
  }

  /** Ends the document; all of it. */
  async bytes(): Promise<Uint8Array> {
    this.end();
    return this.taken() ?? new Uint8Array();
  }
}
