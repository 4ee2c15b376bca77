import { paperLabels, type SheetForm, type SheetRow, sheetLabels } from '../words/index.ts';
import { a4Pt, hair, innerPt, marginPt, Paper, soft } from './document.ts';
import { type Face, standIn } from './type-case.ts';

export interface CameraSheetPaper {
  readonly camera: string;
  /** One page each. */
  readonly forms: readonly SheetForm[];
  /** When it was so, in words. */
  readonly written: string;
  readonly atMs: number;
}

const termPt = 128;
/** A password of four groups still fits beside its name. */
const valueSizePt = 27;
/** The smallest that is read at arm's length without bending down: 9 pt (common practice, no source). */
const noteSizePt = 10.5;

/** The sheet of one camera as PDF: a page for each way in, to lie beside the camera while it is entered. */
export async function cameraSheetPdf({
  camera,
  forms,
  written,
  atMs,
}: CameraSheetPaper): Promise<Uint8Array> {
  const paper = new Paper({ title: sheetLabels.titleOf(camera), atMs });
  if (forms.length === 0) {
    paper.page();
    const y = head(paper, camera, '');
    paper.line(sheetLabels.noForm, { x: marginPt, y }, { size: 13, width: innerPt });
    foot(paper, written, '');
  }
  for (const [index, form] of forms.entries()) {
    page(paper, camera, form, written, { at: index + 1, of: forms.length });
  }
  return paper.bytes();
}

function page(
  paper: Paper,
  camera: string,
  form: SheetForm,
  written: string,
  { at, of }: { readonly at: number; readonly of: number },
): void {
  paper.page();
  let y = head(paper, camera, form.title);
  const lead = of > 1 ? `${sheetLabels.lead} ${sheetLabels.oneIsEnough}` : sheetLabels.lead;
  y += paper.line(lead, { x: marginPt, y }, { size: 12, ink: soft, width: innerPt }) + 12;
  for (const row of form.rows) y = entry(paper, row, y, valueSizePt);
  paper.rule(y, 1.2, [0, 0, 0]);
  y += 14;
  for (const row of form.compare) y = compared(paper, row, y);
  for (const note of form.notes) {
    y += paper.line(note, { x: marginPt, y }, { size: noteSizePt, width: innerPt }) + 7;
  }
  foot(paper, written, sheetLabels.count(at, of));
}

function head(paper: Paper, camera: string, title: string): number {
  const y = marginPt;
  const size = 34;
  paper.line(
    camera,
    { x: marginPt, y },
    { size: fitting(paper, camera, size, innerPt - 200), weight: 'medium' },
  );
  const width = paper.widthOf(title, 15, 'regular');
  paper.line(title, { x: marginPt + innerPt - width, y: y + 19 }, { size: 15 });
  return y + 52;
}

/** A name on the left, what is entered on the right, a note under it. */
function entry(paper: Paper, { term, groups, exact, note }: SheetRow, top: number, wanted: number): number {
  paper.rule(top, 0.5, hair);
  // A blank of type of one width is as wide as a letter.
  const text = groups.join(exact ? ' ' : '   ');
  const face = faceOf(exact);
  const size = fitting(paper, text, wanted, innerPt - termPt, face);
  const lineTop = top + 9;
  paper.line(term, { x: marginPt, y: lineTop + wanted * 0.42 }, { size: 13, ink: soft });
  paper.line(
    text,
    { x: marginPt + termPt, y: lineTop + (wanted - size) * 0.8 },
    { size, weight: 'medium', face },
  );
  const below = lineTop + wanted * 1.25;
  if (note === null) return below + 7;
  paper.line(note, { x: marginPt + termPt, y: below - 1 }, { size: noteSizePt, ink: soft });
  return below + noteSizePt + 9;
}

function compared(paper: Paper, { term, groups, exact }: SheetRow, top: number): number {
  paper.line(term, { x: marginPt, y: top }, { size: noteSizePt, ink: soft });
  const face = faceOf(exact);
  let y = top;
  for (const group of groups) {
    const size = fitting(paper, group, noteSizePt + 1, innerPt - termPt, face);
    y += paper.line(group, { x: marginPt + termPt, y: y - 1 }, { size, weight: 'medium', face });
  }
  return y + 6;
}

function foot(paper: Paper, written: string, count: string): void {
  const y = a4Pt.height - marginPt - 28;
  if (paper.lacking.length > 0) {
    const told = paperLabels.lacking(standIn, paper.lacking);
    paper.line(told, { x: marginPt, y: y - 48 }, { size: 9.5, width: innerPt });
  }
  paper.rule(y - 7, 0.5, hair);
  paper.line(sheetLabels.secret, { x: marginPt, y }, { size: 9.5 });
  paper.line(written, { x: marginPt, y: y + 14 }, { size: 9.5, ink: soft });
  const wide = paper.widthOf(count, 9.5, 'regular');
  paper.line(count, { x: marginPt + innerPt - wide, y: y + 14 }, { size: 9.5, ink: soft });
}

/** The size wanted, or the largest at which the text is no wider than there is room. */
function fitting(paper: Paper, text: string, wanted: number, roomPt: number, face: Face = 'prose'): number {
  const width = paper.widthOf(text, wanted, 'medium', face);
  return width <= roomPt ? wanted : (wanted * roomPt) / width;
}

const faceOf = (exact: boolean): Face => (exact ? 'exact' : 'prose');
