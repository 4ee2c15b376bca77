import type { JournalRecord } from '../../keep/index.ts';
import type { FrameBook } from '../frame-book.ts';
import type { SidecarWriter } from './sidecar-writer.ts';

/** Marks that a sidecar tells of; one that was taken back is written as it is taken back. */
const written = ['hero', 'select', 'alternate', 'out'] as const;

interface Following {
  readonly writer: Pick<SidecarWriter, 'add'>;
  readonly book: Pick<FrameBook, 'everyRow'>;
  readonly trouble: (thrown: unknown) => void;
}

/** Has the sidecars written that a record changes: of its frame, or of all marked frames of its job. */
export function followChoice({ writer, book, trouble }: Following, record: JournalRecord): void {
  switch (record.type) {
    case 'mark-set':
    case 'shot-set':
    case 'shot-followed':
    case 'job-set':
    case 'kept':
      writer.add(record.frame);
      return;
    case 'job-described':
    case 'shot-stated':
      addMarked({ writer, book }, record.job).catch(trouble);
      return;
    default:
      return;
  }
}

/** Of a job, or of every job: as after a start, since the last run may have ended before its sidecars were written. */
export async function addMarked({ writer, book }: Omit<Following, 'trouble'>, job?: string): Promise<void> {
  for (const mark of written) {
    for await (const row of book.everyRow({ mark, ...(job === undefined ? {} : { job }) }))
      writer.add(row.id);
  }
}
