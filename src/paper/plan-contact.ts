import type { Mark, Standing } from '../facts/index.ts';
import type { Box } from './document.ts';

/** One frame as it is printed, in words. */
export interface ContactFrame {
  readonly id: string;
  readonly name: string;
  /** Printed below the name, one after the other. */
  readonly lines: readonly string[];
  readonly mark: Mark;
  /** Null: no shape is drawn, as on a copy for the client. */
  readonly standing: Standing | null;
  /** Remarks with a place in the picture, shares of it. */
  readonly pins: readonly { readonly name: string; readonly x: number; readonly y: number }[];
  /** Width over height of its picture; null where there is none. */
  readonly aspect: number | null;
  /** Printed in the picture's place where there is none. */
  readonly why: string;
}

/** The frames of a shot. */
export interface ContactSection {
  readonly name: string;
  /** Printed large, before the others and in this order. */
  readonly heroes: readonly ContactFrame[];
  readonly frames: readonly ContactFrame[];
  /** What was said of its frames: which one and by whom, and what. */
  readonly remarks: readonly { readonly lead: string; readonly text: string }[];
}

/** How a text is set: as lines that fit into so many points. */
export type BreakText = (
  text: string,
  size: number,
  weight: 'regular' | 'medium',
  widthPt: number,
) => readonly string[];

export interface ContactLayout {
  readonly widthPt: number;
  readonly heightPt: number;
  readonly marginPt: number;
  /** What the head takes of the first page, and of every other. */
  readonly headPt: number;
  readonly runningHeadPt: number;
  readonly footPt: number;
  /** 2 to 6. */
  readonly columns: number;
  readonly breakText: BreakText;
}

export interface PlacedCell {
  readonly kind: 'cell';
  readonly frame: ContactFrame;
  /** Where its picture lies, or the words why there is none. */
  readonly picture: Box;
  readonly x: number;
  readonly wordsY: number;
  readonly name: readonly string[];
  readonly lines: readonly string[];
}
export interface PlacedHeading {
  readonly kind: 'heading';
  readonly y: number;
  readonly lines: readonly string[];
}
export interface PlacedRemark {
  readonly kind: 'remark';
  readonly y: number;
  readonly lead: readonly string[];
  readonly text: readonly string[];
}
export type Placed = PlacedCell | PlacedHeading | PlacedRemark;

export interface ContactPage {
  /** The shot that goes on from the page before; null where a heading begins it. */
  readonly goesOn: string | null;
  readonly placed: readonly Placed[];
}

export const wordsPt = { heading: 12.5, name: 8, line: 7.5, remark: 9 } as const;
export const lineHigh = 1.2;
/** Room about a picture for the frame of its mark. */
const markRoomPt = 5;
const gapPt = 10;
/** The room that a shape takes before a name. */
export const shapeRoomPt = 11;
/** As high as a picture may be: four rows of heroes are not more to see than two. */
const heroHighMaxPt = 300;
/** Which frame and who said it, before what was said. */
export const remarkLeadPt = 150;

/**
 * Where everything lies, page by page. A heading stands with the first row after it; a row is never split, nor a line; what is
 * said of the frames of a shot stands below them, over as many pages as it takes. A step for each row: to measure the type of
 * thousands of names takes seconds, and who plans may have others to attend to.
 */
export function* planContact(
  sections: readonly ContactSection[],
  layout: ContactLayout,
): Generator<void, readonly ContactPage[]> {
  const planner = new Planner(layout);
  for (const section of sections) {
    planner.begin(section.name);
    yield* planner.rows(section.heroes, Math.max(1, Math.floor(layout.columns / 2)), heroHighMaxPt);
    yield* planner.rows(section.frames, layout.columns, Number.POSITIVE_INFINITY);
    for (const remark of section.remarks) yield planner.remark(remark);
  }
  return planner.pages();
}

class Planner {
  readonly #layout: ContactLayout;
  readonly #pages: { goesOn: string | null; placed: Placed[] }[] = [];
  #y = 0;
  #section = '';
  /** A heading that waits for what stands below it. */
  #heading: readonly string[] | null = null;

  constructor(layout: ContactLayout) {
    this.#layout = layout;
    this.#turn(null);
  }

  pages(): readonly ContactPage[] {
    return this.#pages;
  }

  begin(name: string): void {
    this.#section = name;
    this.#heading = this.#layout.breakText(name, wordsPt.heading, 'medium', this.#innerPt);
  }

  *rows(frames: readonly ContactFrame[], columns: number, highMax: number): Generator<void> {
    const width = (this.#innerPt - gapPt * (columns - 1)) / columns;
    for (let first = 0; first < frames.length; first += columns) {
      yield this.#row(frames.slice(first, first + columns), width, highMax);
    }
  }

  remark({ lead, text }: ContactSection['remarks'][number]): void {
    const { breakText } = this.#layout;
    const leads = breakText(lead, wordsPt.remark, 'medium', remarkLeadPt - 8);
    const lines = breakText(text, wordsPt.remark, 'regular', this.#innerPt - remarkLeadPt);
    const high = wordsPt.remark * lineHigh;
    // Line by line: a long remark may be longer than what is left of a page.
    for (let at = 0; at < Math.max(leads.length, lines.length); at += 1) {
      const y = this.#take(high);
      this.#add({ kind: 'remark', y, lead: leads.slice(at, at + 1), text: lines.slice(at, at + 1) });
    }
    this.#y += 3;
  }

  #row(frames: readonly ContactFrame[], width: number, highMax: number): void {
    const { breakText, marginPt } = this.#layout;
    const inner = width - 2 * markRoomPt;
    const wanted = frames.map(({ aspect }) => inner / Math.max(1, aspect ?? 1.5));
    const high = Math.min(highMax, Math.max(...wanted));
    const cells = frames.map((frame, column) => {
      const shape = frame.standing === null ? 0 : shapeRoomPt;
      return {
        frame,
        x: marginPt + column * (width + gapPt) + markRoomPt,
        name: breakText(frame.name, wordsPt.name, 'medium', inner - shape),
        lines: frame.lines.flatMap((line) => breakText(line, wordsPt.line, 'regular', inner)),
      };
    });
    const words = Math.max(
      ...cells.map(
        ({ name, lines }) => (name.length * wordsPt.name + lines.length * wordsPt.line) * lineHigh,
      ),
    );
    const y = this.#take(high + 2 * markRoomPt + words + gapPt);
    for (const cell of cells) {
      const box = { x: cell.x, y: y + markRoomPt, width: inner, height: high };
      const wordsY = y + high + 2 * markRoomPt;
      this.#add({ kind: 'cell', ...cell, picture: fitted(cell.frame.aspect, box), wordsY });
    }
  }

  /** The top of so much room, on this page or the next; the heading that waits stands above it. */
  #take(highPt: number): number {
    const { heightPt, marginPt, footPt } = this.#layout;
    const bottom = heightPt - marginPt - footPt;
    const heading = this.#heading;
    const headingHigh = heading === null ? 0 : heading.length * wordsPt.heading * lineHigh + 12;
    const isFresh = this.#pages.at(-1)?.placed.length === 0;
    if (!isFresh && this.#y + headingHigh + highPt > bottom)
      this.#turn(heading === null ? this.#section : null);
    if (heading !== null) {
      this.#add({ kind: 'heading', y: this.#y + 4, lines: heading });
      this.#y += headingHigh;
      this.#heading = null;
    }
    const y = this.#y;
    this.#y += highPt;
    return y;
  }

  #turn(goesOn: string | null): void {
    const { marginPt, headPt, runningHeadPt } = this.#layout;
    this.#y = marginPt + (this.#pages.length === 0 ? headPt : runningHeadPt);
    this.#pages.push({ goesOn, placed: [] });
  }

  #add(placed: Placed): void {
    this.#pages.at(-1)?.placed.push(placed);
  }

  get #innerPt(): number {
    return this.#layout.widthPt - 2 * this.#layout.marginPt;
  }
}

/** The largest box of this shape in another, at its bottom and left: names stand below it. */
function fitted(aspect: number | null, box: Box): Box {
  if (aspect === null) return box;
  const width = Math.min(box.width, box.height * aspect);
  const height = width / aspect;
  return { x: box.x, y: box.y + box.height - height, width, height };
}
