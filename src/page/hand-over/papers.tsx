import type { ReactNode } from 'react';
import type { PaperUnderWay } from '../../contract/index.ts';
import { handOverLabels as labels } from '../../words/index.ts';
import { ProgressLine } from './progress-line.tsx';

interface PapersProps {
  readonly job: string;
  /** Those that are being drawn, here or for somebody else. */
  readonly contactSheets: readonly PaperUnderWay[];
}

/** Documents of a job that the station makes on demand, as links that give them, and how far they are. */
export function Papers({ job, contactSheets }: PapersProps): ReactNode {
  return (
    <>
      <p className="hand-acts">
        {papersOf(job).map(({ words, address }) => (
          <a key={address} href={address}>
            {words}
          </a>
        ))}
      </p>
      {contactSheets.map(({ frames, done, started }) => (
        <ProgressLine
          key={started}
          name={labels.sheetDrawn}
          done={done}
          of={frames ?? 0}
          words={labels.sheetFrames(done, frames)}
        />
      ))}
    </>
  );
}

/** Whoever makes one more names it here. */
function papersOf(job: string): readonly { readonly words: string; readonly address: string }[] {
  const of = `/api/v1/jobs/${encodeURIComponent(job)}`;
  return [
    { words: labels.contactSheet, address: `${of}/contact-sheet.pdf` },
    { words: labels.report, address: `${of}/report.pdf` },
    { words: labels.reportData, address: `${of}/report` },
  ];
}
