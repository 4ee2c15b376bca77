import type { Closers } from '../closers.ts';
import type { Shelves } from '../open-shelves.ts';
import { describeTrouble, type StationLog } from '../station-log.ts';
import { addMarked, followChoice } from './follow-choices.ts';
import { SidecarWriter } from './sidecar-writer.ts';

/** Writes sidecars from here on, first those that the last run may have left unwritten. */
export function startSidecars(
  { home, keep, book, jobs }: Pick<Shelves, 'home' | 'keep' | 'book' | 'jobs'>,
  log: StationLog,
  closers: Closers,
): void {
  const trouble = (thrown: unknown): void => log('error', describeTrouble(thrown));
  const writer = new SidecarWriter({
    homePath: home.path,
    row: (frame) => book.row(frame),
    job: (code) => jobs.job(code),
    tell: (finding) => log('info', finding),
    trouble,
  });
  keep.onRecord((record) => followChoice({ writer, book, trouble }, record));
  closers.add(() => writer.close());
  addMarked({ writer, book }).catch(trouble);
}
