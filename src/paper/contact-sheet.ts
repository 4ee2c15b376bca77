import { setImmediate } from 'node:timers/promises';
import { paperLabels } from '../words/index.ts';
import { brokenLines } from './broken-lines.ts';
import { black, hair, type Ink, Paper, type PaperSize, paperSizesPt, soft } from './document.ts';
import {
  type ContactFrame,
  type ContactPage,
  type ContactSection,
  lineHigh,
  type Placed,
  type PlacedCell,
  planContact,
  remarkLeadPt,
  shapeRoomPt,
  wordsPt,
} from './plan-contact.ts';
import { drawMark, drawPin, drawStanding } from './shapes.ts';
import { standIn } from './type-case.ts';

export interface ContactSheetPaper {
  readonly title: string;
  /** Below the title: whose, how many frames, which were asked for. */
  readonly lead: readonly string[];
  readonly size: PaperSize;
  /** 2 to 6; heroes lie in half as many. */
  readonly columns: number;
  readonly sections: readonly ContactSection[];
  /** When it was so, in words. */
  readonly written: string;
  readonly atMs: number;
  /**
   * A frame's picture as a JPEG in sRGB of about this width, pixels of the upright picture; null where there is none after all.
   */
  readonly picture: (frame: ContactFrame, widthPx: number) => Promise<Uint8Array | null>;
  /** Hears of each frame that is drawn. */
  readonly onFrame?: (done: number) => void;
}

/** Narrow enough for a printer that leaves a border of 10 mm (common practice, no source). */
const marginPt = 36;
/** Fine enough for the eye at reading distance, 300 being what a printer can (common practice, no source). */
const pixelsPerInch = 220;
const paper0: Ink = [0.94, 0.94, 0.94];

export interface PlannedContactSheet {
  readonly pages: number;
  /** Letters that the type does not have, in what is printed. */
  readonly lacking: readonly string[];
  /** The document, part by part: no more than a page of it is held. Rejects as `picture`. */
  readonly parts: () => AsyncGenerator<Uint8Array>;
}

/** A contact sheet as PDF: laid out whole, drawn page by page as it is taken. The same values and pictures give the same bytes. */
export async function planContactSheet(sheet: ContactSheetPaper): Promise<PlannedContactSheet> {
  const { title, atMs, size, columns, sections, lead } = sheet;
  const paper = new Paper({ title, atMs, size });
  const { width: widthPt, height: heightPt } = paperSizesPt[size];
  const inner = widthPt - 2 * marginPt;
  const breakText = (
    text: string,
    pt: number,
    weight: 'regular' | 'medium',
    roomPt: number,
  ): readonly string[] => brokenLines(text, (part) => paper.widthOf(part, pt, weight) <= roomPt);
  const titleLines = breakText(title, 22, 'medium', inner);
  const leadLines = lead.flatMap((line) => breakText(line, 10, 'regular', inner));
  const headPt = titleLines.length * 22 * lineHigh + leadLines.length * 10 * lineHigh + 8;
  const layout = { widthPt, heightPt, marginPt, headPt, runningHeadPt: 20, footPt: 40, columns, breakText };
  const pages = await stepped(planContact(sections, layout));
  const drawing = { sheet, paper, pages, titleLines, leadLines, inner };
  return { pages: pages.length, lacking: paper.lacking, parts: () => drawn(drawing) };
}

/** Rows that are measured before others are let by. */
const rowsAtOnce = 1;

async function stepped<T>(steps: Generator<void, T>): Promise<T> {
  for (let count = 1; ; count += 1) {
    const step = steps.next();
    if (step.done === true) return step.value;
    if (count % rowsAtOnce === 0) await setImmediate();
  }
}

interface Drawing {
  readonly sheet: ContactSheetPaper;
  readonly paper: Paper;
  readonly pages: readonly ContactPage[];
  readonly titleLines: readonly string[];
  readonly leadLines: readonly string[];
  readonly inner: number;
}

async function* drawn(drawing: Drawing): AsyncGenerator<Uint8Array> {
  const { paper, pages } = drawing;
  let done = 0;
  for (const [index, page] of pages.entries()) {
    paper.page();
    drawHead(drawing, page, index === 0);
    for (const placed of page.placed) {
      if (placed.kind === 'cell') {
        await drawCell(drawing, placed);
        done += 1;
        drawing.sheet.onFrame?.(done);
        // Each picture as soon as it is written.
        yield* taken(paper);
      } else drawWords(drawing, placed);
    }
    drawFoot(drawing, page, index);
  }
  paper.end();
  yield* taken(paper);
}

function* taken(paper: Paper): Generator<Uint8Array> {
  for (let part = paper.taken(); part !== null; part = paper.taken()) yield part;
}

function drawHead(
  { sheet, paper, titleLines, leadLines, inner }: Drawing,
  page: ContactPage,
  isFirst: boolean,
): void {
  let y = marginPt;
  if (isFirst) {
    for (const line of titleLines) y += paper.line(line, { x: marginPt, y }, { size: 22, weight: 'medium' });
    for (const line of leadLines) y += paper.line(line, { x: marginPt, y }, { size: 10, ink: soft });
    return;
  }
  const going = page.goesOn === null ? '' : paperLabels.goesOn(page.goesOn);
  const title = shortened(paper, sheet.title, inner / 2 - 10);
  paper.line(title, { x: marginPt, y }, { size: 8.5, ink: soft });
  const right = shortened(paper, going, inner / 2 - 10);
  const width = paper.widthOf(right, 8.5, 'regular');
  paper.line(right, { x: marginPt + inner - width, y }, { size: 8.5, ink: soft });
  paper.rule(y + 13, 0.5, hair, inner, marginPt);
}

/** Cut at its end, with a sign that it is; it stands whole on another page. */
function shortened(paper: Paper, text: string, roomPt: number): string {
  if (paper.widthOf(text, 8.5, 'regular') <= roomPt) return text;
  const [line = ''] = brokenLines(text, (part) => paper.widthOf(`${part} …`, 8.5, 'regular') <= roomPt);
  return `${line} …`;
}

function drawWords({ paper, inner }: Drawing, placed: Exclude<Placed, PlacedCell>): void {
  let { y } = placed;
  if (placed.kind === 'heading') {
    paper.rule(y, 1.2, black, inner, marginPt);
    y += 3;
    for (const line of placed.lines)
      y += paper.line(line, { x: marginPt, y }, { size: wordsPt.heading, weight: 'medium' });
    return;
  }
  for (const line of placed.lead)
    paper.line(line, { x: marginPt, y }, { size: wordsPt.remark, weight: 'medium' });
  for (const line of placed.text)
    paper.line(line, { x: marginPt + remarkLeadPt, y }, { size: wordsPt.remark });
}

async function drawCell({ sheet, paper }: Drawing, cell: PlacedCell): Promise<void> {
  const { frame, picture: box } = cell;
  const widthPx = Math.ceil((box.width / 72) * pixelsPerInch);
  const jpeg = frame.aspect === null ? null : await sheet.picture(frame, widthPx);
  if (jpeg === null) drawGround(paper, cell);
  else paper.picture(jpeg, box);
  drawMark(paper, frame.mark, box);
  for (const { name, x, y } of frame.pins)
    drawPin(paper, name, { x: box.x + x * box.width, y: box.y + y * box.height });
  let y = cell.wordsY;
  const shape = frame.standing === null ? 0 : shapeRoomPt;
  if (frame.standing !== null) drawStanding(paper, frame.standing, { x: cell.x, y: y + 0.6 }, 8);
  for (const line of cell.name)
    y += paper.line(line, { x: cell.x + shape, y }, { size: wordsPt.name, weight: 'medium' });
  for (const line of cell.lines) y += paper.line(line, { x: cell.x, y }, { size: wordsPt.line, ink: soft });
}

/** What stands where a picture would. */
function drawGround(paper: Paper, { frame, picture: { x, y, width, height } }: PlacedCell): void {
  paper.fill(paper0);
  paper.doc.rect(x, y, width, height).fill();
  const size = 7.5;
  const fits = (part: string): boolean => paper.widthOf(part, size, 'regular') <= width - 8;
  const lines = brokenLines(frame.why, fits).slice(
    0,
    Math.max(1, Math.floor((height - 8) / (size * lineHigh))),
  );
  let lineY = y + 4;
  for (const line of lines) lineY += paper.line(line, { x: x + 4, y: lineY }, { size });
}

function drawFoot({ sheet, paper, pages, inner }: Drawing, page: ContactPage, index: number): void {
  const y = paper.sizePt.height - marginPt - 12;
  const lacking = paper.lacking.filter((letter) =>
    wordsOf(sheet, page, index).normalize('NFC').includes(letter),
  );
  if (lacking.length > 0) {
    const told = paperLabels.lacking(standIn, lacking);
    paper.line(told, { x: marginPt, y: y - 24 }, { size: 7.5, width: inner });
  }
  paper.line(sheet.written, { x: marginPt, y }, { size: 8.5, ink: soft });
  const number = paperLabels.pageOf(index + 1, pages.length);
  const width = paper.widthOf(number, 8.5, 'regular');
  paper.line(number, { x: marginPt + inner - width, y }, { size: 8.5 });
}

/** All that is printed on a page. */
function wordsOf({ title, lead }: ContactSheetPaper, { goesOn, placed }: ContactPage, index: number): string {
  const cells = placed.flatMap((each) => {
    if (each.kind === 'cell') return [...each.name, ...each.lines, each.frame.why];
    return each.kind === 'heading' ? each.lines : [...each.lead, ...each.text];
  });
  return [title, goesOn ?? '', ...(index === 0 ? lead : []), ...cells].join('\n');
}
