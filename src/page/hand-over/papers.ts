import { handOverLabels } from '../../words/index.ts';

/** A document about a job that the station makes on demand, as a link that gives it. */
export interface HandOverPaper {
  readonly words: string;
  readonly address: string;
}

/** Documents of a job, beside its deliveries: whoever makes one more names it here. */
export function papersOf(job: string): readonly HandOverPaper[] {
  const of = `/api/v1/jobs/${encodeURIComponent(job)}`;
  return [
    { words: handOverLabels.contactSheet, address: `${of}/contact-sheet.pdf` },
    { words: handOverLabels.report, address: `${of}/report.pdf` },
  ];
}
