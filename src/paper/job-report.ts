import type { JobReport } from '../job/index.ts';
import { agreementNames, paperLabels, reportLabels, sentence, strikeLabels } from '../words/index.ts';
import { hair, marginPt, Paper, type PaperSize, soft } from './document.ts';
import { drawLight, drawWaits } from './report-plots.ts';
import { type Column, headed, rowHighPt, table } from './report-table.ts';
import { drawStanding } from './shapes.ts';
import { standIn } from './type-case.ts';

export interface JobReportPaper {
  readonly title: string;
  /** Below the title: what the job is called, whose it is, when it was. */
  readonly lead: readonly string[];
  readonly report: JobReport;
  readonly size: PaperSize;
  readonly written: string;
  readonly atMs: number;
  /** A moment as a time of the station's day, and with its date. */
  readonly clock: (atMs: number) => string;
  readonly dayAndTime: (atMs: number) => string;
}

/** What fits on the one page beside everything else. More is told by how many. */
const shotsMax = 10;
const targetsMax = 5;
const doubtsMax = 4;
const doubtsInColumn = 1;
const numberLinesMax = 4;
const plotHighPt = 128;
/** So much higher where there is room; and how many open lines have theirs anyway. */
const plotMorePtMax = 72;
const openUsual = 4;
const bodyPt = 8.5;

/** How a job went, on one page. The same values give the same bytes. */
export async function jobReportPdf(given: JobReportPaper): Promise<Uint8Array> {
  const { title, atMs, size, report } = given;
  const paper = new Paper({ title, atMs, size });
  paper.page();
  const inner = paper.sizePt.width - 2 * marginPt;
  const half = (inner - 18) / 2;
  const right = marginPt + half + 18;
  let y = drawHead(paper, given, inner);
  y = drawShots(paper, report, y, inner);

  headed(paper, reportLabels.waits, marginPt, y, half);
  headed(paper, reportLabels.light, right, y, half);
  const box = { y: y + 16, width: half, height: plotHighPt + spareOf(report) };
  const waitsEnd = drawWaits(paper, report, { ...box, x: marginPt }, given.clock);
  const lightEnd = drawLight(paper, report, { ...box, x: right }, given.clock);
  const { doubts } = report.times;
  // A word or two about waits stand below the waits; many have room across the page only.
  const isShort = doubts.length <= doubtsInColumn;
  y = (isShort ? waitsEnd : Math.max(waitsEnd, lightEnd)) + 2;
  for (const line of [
    reportLabels.howKnown,
    ...doubts.slice(0, doubtsMax).map((each) => sentence(each)),
    ...(doubts.length > doubtsMax ? [reportLabels.moreDoubts(doubts.length - doubtsMax)] : []),
  ])
    y += paper.line(line, { x: marginPt, y }, { size: 7.5, width: isShort ? half : inner, ink: soft }) + 1;
  y = Math.max(y, lightEnd) + 6;

  const colourEnd = drawColour(paper, report, y, half);
  const keptEnd = drawKept(paper, report, { x: right, y, width: half });
  y = Math.max(colourEnd, keptEnd) + 8;
  drawOpen(paper, given, y, inner);
  drawFoot(paper, given, inner);
  return paper.bytes();
}

/** Where little is to be told, the plots are the higher, pt. */
function spareOf({ shots, open }: JobReport): number {
  const rows = shotsMax - shots.length - Math.max(0, open.length - openUsual);
  return Math.min(plotMorePtMax, Math.max(0, rows * rowHighPt));
}

function drawHead(paper: Paper, { title, lead, report }: JobReportPaper, width: number): number {
  let y = marginPt - 9;
  y += paper.line(title, { x: marginPt, y }, { size: 20, weight: 'medium', width });
  for (const line of [...lead, reportLabels.frames(report.frames, report.shotless)])
    y += paper.line(line, { x: marginPt, y }, { size: 9.5, width, ink: soft });
  y += 3;
  drawStanding(paper, report.ready ? 'good' : 'bad', { x: marginPt, y: y + 1.5 }, 11);
  const answer = report.ready ? strikeLabels.ready : strikeLabels.notReady(report.open.length);
  return y + paper.line(answer, { x: marginPt + 16, y }, { size: 11.5, weight: 'medium' }) + 6;
}

function drawShots(paper: Paper, { shots }: JobReport, top: number, width: number): number {
  const y = headed(paper, reportLabels.shots, marginPt, top, width);
  if (shots.length === 0)
    return y + paper.line(reportLabels.noShots, { x: marginPt, y }, { size: bodyPt, width }) + 8;
  // What is open is what is read for: it is never among those left out.
  const urgent = new Set([...shots].sort((a, b) => b.open - a.open).slice(0, shotsMax));
  const told = shots.filter((shot) => urgent.has(shot));
  const others = shots.filter((shot) => !urgent.has(shot));
  const { columns: names } = reportLabels;
  const columns: readonly Column[] = [
    { title: names.shot, x: 0, width: width * 0.36 },
    { title: names.pictures, x: width * 0.37, width: width * 0.1 },
    { title: names.heroes, x: width * 0.48, width: width * 0.1 },
    { title: names.selects, x: width * 0.59, width: width * 0.1 },
    { title: names.client, x: width * 0.7, width: width * 0.13 },
    { title: names.open, x: width * 0.84, width: width * 0.16 },
  ];
  const rows = told.map(({ name, pictures, heroes, selects, agreement, open, accepted }) => [
    name,
    String(pictures),
    reportLabels.ofWanted(heroes.there, heroes.wanted),
    reportLabels.ofWanted(selects.there, selects.wanted),
    agreement === null ? reportLabels.notAsked : agreementNames[agreement],
    reportLabels.openLines(open, accepted),
  ]);
  const end = table(paper, columns, rows, marginPt, y);
  if (others.length === 0) return end + 8;
  const more = reportLabels.moreShots(others.length, others.filter(({ open }) => open > 0).length);
  return end + paper.line(more, { x: marginPt, y: end }, { size: bodyPt, ink: soft }) + 8;
}

function drawColour(paper: Paper, { colour }: JobReport, top: number, width: number): number {
  let y = headed(paper, reportLabels.colour, marginPt, top, width);
  const [first] = colour;
  if (first === undefined)
    return y + paper.line(reportLabels.noColour, { x: marginPt, y }, { size: bodyPt, width });
  const names = reportLabels.colourColumns;
  const columns: readonly Column[] = [
    { title: names.frame, x: 0, width: width * 0.38 },
    { title: names.mean, x: width * 0.39, width: width * 0.13 },
    { title: names.max, x: width * 0.53, width: width * 0.13 },
    { title: names.delivered, x: width * 0.67, width: width * 0.19 },
    { title: names.verdict, x: width * 0.87, width: width * 0.13 },
  ];
  // The newest: what was mended meanwhile is not what is delivered.
  const told = colour.slice(-targetsMax);
  const rows = told.map(({ name, meanDeltaE00, maxDeltaE00, deliveredMeanDeltaE00, judgement }) => [
    name,
    reportLabels.figure(meanDeltaE00),
    reportLabels.figure(maxDeltaE00),
    reportLabels.figure(deliveredMeanDeltaE00),
    reportLabels.judgement(judgement),
  ]);
  y = table(paper, columns, rows, marginPt, y);
  if (colour.length > told.length) {
    const more = reportLabels.moreTargets(colour.length - told.length);
    y += paper.line(more, { x: marginPt, y }, { size: bodyPt, ink: soft });
  }
  const limits = reportLabels.colourLimits(first.meanLimit, first.maxLimit);
  return y + 1 + paper.line(limits, { x: marginPt, y: y + 1 }, { size: 7.5, width, ink: soft });
}

function drawKept(
  paper: Paper,
  { numbers, copies }: JobReport,
  { x, y: top, width }: { x: number; y: number; width: number },
): number {
  let y = headed(paper, reportLabels.kept, x, top, width);
  const lines = [
    numbers.missing === 0 ? reportLabels.noneMissing : reportLabels.missing(numbers.missing),
    ...numbers.lines.slice(0, numberLinesMax).map(({ finding, accepted }) => {
      const by = accepted === null ? '' : ` ${reportLabels.explained(accepted.name, accepted.reason)}`;
      return `${sentence(finding)}${by}`;
    }),
    ...(numbers.lines.length > numberLinesMax
      ? [reportLabels.moreOpen(numbers.lines.length - numberLinesMax)]
      : []),
    copies.secondPlaces === 0 && copies.twice === 0
      ? reportLabels.noSecondPlace
      : reportLabels.copies(copies.files, copies.twice, copies.direct),
    ...(copies.notWhole === 0 ? [] : [reportLabels.notWhole(copies.notWhole)]),
  ];
  for (const line of lines) y += paper.line(line, { x, y }, { size: bodyPt, width }) + 2;
  return y;
}

/** What is open, as far as the page has room; then who accepted what. */
function drawOpen(paper: Paper, { report }: JobReportPaper, top: number, width: number): void {
  let y = headed(paper, reportLabels.open, marginPt, top, width);
  const bottom = paper.sizePt.height - marginPt - 66;
  const { open, accepted } = report;
  const line = (text: string): void => {
    y += paper.line(text, { x: marginPt, y }, { size: bodyPt, width }) + 1.5;
  };
  if (open.length === 0) line(reportLabels.nothingOpen);
  for (const [index, { finding }] of open.entries()) {
    // Two lines of a sentence and one for what is left out.
    if (y + 3 * rowHighPt > bottom && index < open.length - 1) {
      line(reportLabels.moreOpen(open.length - index));
      break;
    }
    line(sentence(finding));
  }
  const names = [...new Set(accepted.flatMap(({ accepted: by }) => by?.name ?? []))];
  if (accepted.length > 0 && y + rowHighPt < bottom) line(reportLabels.accepted(accepted.length, names));
}

function drawFoot(paper: Paper, { report, written, dayAndTime }: JobReportPaper, width: number): void {
  const { signed } = report;
  let y = paper.sizePt.height - marginPt - 44;
  if (paper.lacking.length > 0)
    paper.line(paperLabels.lacking(standIn, paper.lacking), { x: marginPt, y: y - 22 }, { size: 7.5, width });
  paper.rule(y, 0.8, hair, width);
  y += 6;
  const word =
    signed === null
      ? reportLabels.notSigned
      : (signed.stands ? strikeLabels.signedBy : strikeLabels.reopened)(signed.name, dayAndTime(signed.atMs));
  y += paper.line(word, { x: marginPt, y }, { size: 10, weight: 'medium', width });
  y += paper.line(strikeLabels.caution, { x: marginPt, y }, { size: 7.5, width, ink: soft }) + 3;
  paper.line(written, { x: marginPt, y }, { size: 7.5, ink: soft });
}
