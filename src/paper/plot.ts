import { type Box, black, hair, type Ink, type Paper, soft } from './document.ts';

/** One side of a plot. */
export interface Axis {
  readonly from: number;
  /** Above `from`. */
  readonly to: number;
  readonly ticks: readonly { readonly at: number; readonly label: string }[];
  /** What it is, with its unit. */
  readonly title: string;
}

const tickSizePt = 7;
/** The room for labels left of a plot and below it. */
const leftPt = 30;
const belowPt = 24;

/**
 * Round numbers that part a span into about so many steps: 1, 2 or 5 times a power of ten, from the first at or above `from`
 * to the last at or below `to`.
 */
export function roundTicks(from: number, to: number, about: number): readonly number[] {
  const rough = (to - from) / about;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * ([1, 2, 5].find((each) => each * power >= rough) ?? 10);
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, index) =>
    Number(((first + index) * step).toPrecision(12)),
  );
}

/** A plot with its axes drawn: where values lie on the paper. */
export class Plot {
  readonly #paper: Paper;
  readonly field: Box;
  readonly #x: Axis;
  readonly #y: Axis;

  constructor(paper: Paper, box: Box, x: Axis, y: Axis) {
    this.#paper = paper;
    this.#x = x;
    this.#y = y;
    this.field = {
      x: box.x + leftPt,
      y: box.y + 10,
      width: box.width - leftPt - 4,
      height: box.height - belowPt - 10,
    };
  }

  x(value: number): number {
    return this.field.x + ((value - this.#x.from) / (this.#x.to - this.#x.from)) * this.field.width;
  }

  y(value: number): number {
    const { from, to } = this.#y;
    return this.field.y + this.field.height - ((value - from) / (to - from)) * this.field.height;
  }

  /** The grid with its figures. To be drawn over what lies in the ground and under what is plotted. */
  axes(): void {
    const { doc } = this.#paper;
    const { x, y, width, height } = this.field;
    const mid = tickSizePt * 0.6;
    for (const { at, label } of this.#y.ticks) {
      this.#paper.rule(this.y(at), 0.3, hair, width, x);
      this.#right(label, x - 4, this.y(at) - mid);
    }
    for (const { at, label } of this.#x.ticks) {
      this.#paper.ink(hair);
      doc
        .lineWidth(0.5)
        .moveTo(this.x(at), y + height)
        .lineTo(this.x(at), y + height + 3)
        .stroke();
      const wide = this.#paper.widthOf(label, tickSizePt, 'regular');
      this.#paper.line(label, { x: this.x(at) - wide / 2, y: y + height + 4 }, { size: tickSizePt });
    }
    this.#paper.rule(y + height, 0.8, black, width, x);
    this.#right(this.#x.title, x + width, y + height + 13);
    this.#paper.line(this.#y.title, { x: x - leftPt, y: y - 11 }, { size: tickSizePt, ink: soft });
  }

  /** A line through points given in values. `dashed` tells a second one apart. */
  line(
    points: readonly (readonly [x: number, y: number])[],
    widthPt: number,
    dashed = false,
    ink: Ink = black,
  ): void {
    const { doc } = this.#paper;
    const [first, ...others] = points;
    if (first === undefined) return;
    doc.save();
    this.#paper.ink(ink);
    doc.lineWidth(widthPt);
    if (dashed) doc.dash(3, { space: 2 });
    doc.moveTo(this.x(first[0]), this.y(first[1]));
    for (const [x, y] of others) doc.lineTo(this.x(x), this.y(y));
    doc.stroke();
    doc.restore();
  }

  /** The ground between two values of the upright axis. */
  band(from: number, to: number, ink: Ink): void {
    this.#paper.fill(ink);
    const top = this.y(to);
    this.#paper.doc.rect(this.field.x, top, this.field.width, this.y(from) - top).fill();
  }

  #right(text: string, right: number, y: number): void {
    const wide = this.#paper.widthOf(text, tickSizePt, 'regular');
    this.#paper.line(text, { x: right - wide, y }, { size: tickSizePt, ink: soft });
  }
}
