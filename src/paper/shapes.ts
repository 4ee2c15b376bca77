import type { Mark, Standing } from '../facts/index.ts';
import { type Box, black, type Ink, type Paper } from './document.ts';

const white: Ink = [1, 1, 1];

/**
 * The shape of a verdict, as on the pages: filled disc good, half disc doubt, ring with bar bad, dotted ring unknown, ring
 * about a disc accepted. `sizePt` across, its left top corner at (x, y).
 */
export function drawStanding(
  paper: Paper,
  standing: Standing,
  at: { x: number; y: number },
  sizePt: number,
): void {
  const { doc } = paper;
  // The pages' shapes are drawn in a square of 32.
  const unit = sizePt / 32;
  const [x, y] = [at.x + sizePt / 2, at.y + sizePt / 2];
  doc.save();
  paper.fill(black);
  paper.ink(black);
  const ring = (radius: number, width: number): void => {
    doc
      .lineWidth(width * unit)
      .circle(x, y, radius * unit)
      .stroke();
  };
  switch (standing) {
    case 'good':
      doc.circle(x, y, 14 * unit).fill();
      break;
    case 'doubt':
      ring(13, 2.5);
      doc.path(halfDisc(x, y, 13 * unit)).fill();
      break;
    case 'bad':
      ring(12, 4);
      doc
        .lineWidth(5 * unit)
        .moveTo(x - 12 * unit, y)
        .lineTo(x + 12 * unit, y)
        .stroke();
      break;
    case 'accepted':
      ring(13, 2.5);
      doc.circle(x, y, 7 * unit).fill();
      break;
    case 'unknown':
      doc.lineCap('round').dash(0.1 * unit, { space: 6.7 * unit });
      ring(13, 3);
      break;
  }
  doc.restore();
}

/** The left half. */
function halfDisc(x: number, y: number, radius: number): string {
  return `M${x} ${y - radius}A${radius} ${radius} 0 0 0 ${x} ${y + radius}Z`;
}

/**
 * What a frame's mark is drawn as about its picture, as with a wax pencil: hero a double frame, select one, alternate a broken
 * one, out a stroke across.
 */
export function drawMark(paper: Paper, mark: Mark, { x, y, width, height }: Box): void {
  const { doc } = paper;
  doc.save();
  paper.ink(black);
  const frame = (out: number, line: number): void => {
    doc
      .lineWidth(line)
      .rect(x - out, y - out, width + 2 * out, height + 2 * out)
      .stroke();
  };
  if (mark === 'hero') {
    frame(1.6, 0.9);
    frame(3.6, 0.9);
  } else if (mark === 'select') frame(1.8, 1.3);
  else if (mark === 'alternate') {
    doc.dash(4, { space: 2.5 });
    frame(1.8, 1.3);
  } else if (mark === 'out') {
    // White beside black, so that it is seen on any picture.
    for (const [ink, line] of [
      [white, 3.4],
      [black, 1.4],
    ] as const) {
      paper.ink(ink);
      doc
        .lineWidth(line)
        .moveTo(x + 2, y + height - 2)
        .lineTo(x + width - 2, y + 2)
        .stroke();
    }
  }
  doc.restore();
}

/** The pin of a remark: its name in a disc, white about it. The middle at (x, y). */
export function drawPin(paper: Paper, name: string, { x, y }: { x: number; y: number }): void {
  const size = 6.5;
  const width = paper.widthOf(name, size, 'medium');
  const radius = Math.max(4.6, width / 2 + 2);
  paper.doc.save();
  paper.fill(black);
  paper.ink(white);
  paper.doc.lineWidth(0.8).circle(x, y, radius).fillAndStroke();
  paper.doc.restore();
  paper.line(name, { x: x - width / 2, y: y - size * 0.63 }, { size, weight: 'medium', ink: white });
}
