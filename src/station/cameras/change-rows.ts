import type { LineReport, ReportLine } from '../../receive/index.ts';

/** What a camera may do some thousand times in a row: a card that is cleared, a folder that is put in order. */
const inRows: ReadonlySet<string> = new Set(['line.taken-out', 'line.renamed']);

/** The row a camera is in, with its newest report and how many of it nobody has been told of. */
interface Row {
  last: LineReport;
  untold: number;
}

/**
 * Hands on what happens on the line, and of many changes of one kind in a row the first at once, the others as one line with
 * their number when the camera does something else or leaves.
 */
export class ChangeRows {
  readonly #tell: ReportLine;
  readonly #rows = new Map<string, Row>();

  constructor(tell: ReportLine) {
    this.#tell = tell;
  }

  take(report: LineReport): void {
    const { camera, finding } = report;
    if (camera === null) {
      this.#tell(report);
      return;
    }
    const row = this.#rows.get(camera);
    if (row?.last.finding.code === finding.code) {
      row.last = report;
      row.untold += 1;
      return;
    }
    this.#rows.delete(camera);
    if (row !== undefined) this.#tellRest(row);
    if (inRows.has(finding.code)) this.#rows.set(camera, { last: report, untold: 0 });
    this.#tell(report);
  }

  #tellRest({ last, untold }: Row): void {
    if (untold === 0) return;
    const { code, args } = last.finding;
    this.#tell(untold === 1 ? last : { ...last, finding: { code, args: { ...args, count: untold } } });
  }
}
