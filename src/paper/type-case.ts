import { createRequire } from 'node:module';

export type Weight = 'regular' | 'medium';
/** What is read as words, or what is entered and compared letter by letter: of one width, with I, l and 1 told apart. */
export type Face = 'prose' | 'exact';

const grades: Readonly<Record<Weight, number>> = { regular: 400, medium: 500 };
const latinAndGreek = ['latin', 'latin-ext', 'cyrillic', 'greek', 'cyrillic-ext', 'greek-ext'];
const prose = [...latinAndGreek, 'vietnamese'].map((script) => `fira-sans-${script}`);
/**
 * The family comes in files of one script each; the first that has a letter gives it. A letter that is in none of one width
 * is taken from the others: better of another width than not at all.
 */
const files: Readonly<Record<Face, readonly string[]>> = {
  prose,
  exact: [...latinAndGreek.map((script) => `fira-mono-${script}`), ...prose],
};

/** Printed in place of a letter that no file of the type has: never an empty box, which says nothing. */
export const standIn = '¤';

/** Letters that lie in one file of the type. */
export interface Run {
  readonly font: string;
  readonly text: string;
}

/**
 * The type of a document, by letters: which file each lies in, and which letters none has. A file is opened when a letter
 * asks for it, and lies in the document only if something is set in it.
 */
export class TypeCase {
  readonly #doc: PDFKit.PDFDocument;
  readonly #find = createRequire(import.meta.url);
  readonly #opened = new Map<string, (code: number) => boolean>();
  readonly #fonts = new Map<string, string | null>();
  readonly #lacking = new Set<string>();

  constructor(doc: PDFKit.PDFDocument) {
    this.#doc = doc;
  }

  /** What was to be set and no file has, in the order it was met, each once. */
  get lacking(): readonly string[] {
    return [...this.#lacking];
  }

  /**
   * A line of text as runs, in its order. What people see as one letter (UAX 29) is never split between two files; marks are
   * put together with their letters where Unicode has both in one (NFC), as names from a Mac's disk need it.
   */
  runs(text: string, weight: Weight, face: Face): readonly Run[] {
    const runs: { font: string; text: string }[] = [];
    for (const letter of lettersOf(text)) {
      const has = this.#fontOf(letter, weight, face);
      if (has === null) this.#lacking.add(letter);
      const font = has ?? fontName('fira-sans-latin', weight);
      const set = has === null ? standIn : letter;
      const last = runs.at(-1);
      if (last?.font === font) last.text += set;
      else runs.push({ font, text: set });
    }
    return runs;
  }

  #fontOf(letter: string, weight: Weight, face: Face): string | null {
    const key = `${face} ${weight} ${letter}`;
    const known = this.#fonts.get(key);
    if (known !== undefined) return known;
    const codes = [...letter].map((each) => each.codePointAt(0) ?? 0);
    const file = files[face].find((each) => codes.every(this.#open(each, weight)));
    const font = file === undefined ? null : fontName(file, weight);
    this.#fonts.set(key, font);
    return font;
  }

  #open(file: string, weight: Weight): (code: number) => boolean {
    const name = fontName(file, weight);
    const known = this.#opened.get(name);
    if (known !== undefined) return known;
    const family = file.startsWith('fira-mono') ? 'fira-mono' : 'fira-sans';
    this.#doc.registerFont(
      name,
      this.#find.resolve(`@fontsource/${family}/files/${file}-${grades[weight]}-normal.woff`),
    );
    const { font } = this.#doc.font(name)._font;
    const has = (code: number): boolean => font.hasGlyphForCodePoint(code);
    this.#opened.set(name, has);
    return has;
  }
}

const fontName = (file: string, weight: Weight): string => `${file}-${weight}`;

const letters = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** Without what is never seen, such as the sign that asks for a coloured picture; a control character or a line's end is a blank. */
function lettersOf(text: string): Iterable<string> {
  const plain = text.normalize('NFC').replace(/[\p{Cc}\u2028\u2029]+/gu, ' ');
  // Most lines have nothing that needs to be looked at twice.
  if (/^[ -~]*$/.test(plain)) return plain;
  const seen: string[] = [];
  for (const { segment } of letters.segment(plain)) {
    const letter = segment.replace(/\p{Default_Ignorable_Code_Point}/gu, '');
    if (letter !== '') seen.push(letter);
  }
  return seen;
}
