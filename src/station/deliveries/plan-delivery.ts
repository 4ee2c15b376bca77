import { SetsideError } from '../../base/index.ts';
import {
  defaultTemplate,
  type NameValues,
  nameFiles,
  placeholdersOf,
  type Specification,
} from '../../deliver/index.ts';
import type { Job } from '../../job/index.ts';
import { counterOf } from '../../metadata/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { FrameBook } from '../frame-book.ts';
import type { OrderedFrame } from './delivery-log.ts';

/** Frames that are read at a time. */
const pageSize = 200;

/** The frames in the order of the day. Errors: `no-frame`, `nothing-to-deliver`. */
export async function framesToDeliver(
  book: Pick<FrameBook, 'rows' | 'row'>,
  job: string,
  specification: Specification,
  named: readonly string[] | undefined,
): Promise<readonly FrameRow[]> {
  const rows: FrameRow[] = [];
  if (named !== undefined) {
    for (const id of new Set(named)) {
      const row = await book.row(id);
      if (row === null || row.job !== job) throw new SetsideError('no-frame', `${job} has no frame ${id}`);
      rows.push(row);
    }
    rows.sort((a, b) => a.orderMs - b.orderMs || (a.id < b.id ? -1 : 1));
  } else {
    let after: string | null = null;
    do {
      const page: Awaited<ReturnType<FrameBook['rows']>> = await book.rows({
        job,
        limit: pageSize,
        ...(after === null ? {} : { after }),
      });
      rows.push(...page.frames.filter(({ mark }) => specification.marks.includes(mark)));
      after = page.next;
    } while (after !== null);
  }
  if (rows.length > 0) return rows;
  const marks = specification.marks.join(', ');
  throw new SetsideError('nothing-to-deliver', `no frame of ${job} has one of the marks ${marks}`);
}

const extensions: Readonly<Record<Specification['format']['kind'], string>> = {
  jpeg: '.jpg',
  tiff: '.tif',
  png: '.png',
  webp: '.webp',
  avif: '.avif',
};

/** A name for each, by the specification's template, else the job's, else the plain one. */
export function namesOf(
  rows: readonly FrameRow[],
  job: Job,
  specification: Specification,
  zoneOffsetMinutes: number,
): readonly OrderedFrame[] {
  const own = job.handOver.naming;
  // A job's template may have been written before anybody said what it can hold.
  const usable = own !== '' && placeholdersOf(own).unknown.length === 0 ? own : defaultTemplate;
  const template = specification.naming === '' ? usable : specification.naming;
  const values = rows.map((row, index): NameValues => {
    const counter = counterOf(row.name);
    const localMs = (row.shutterMs ?? row.orderMs) + zoneOffsetMinutes * 60_000;
    return {
      job: job.code,
      shot: job.shots.find(({ id }) => id === row.shot)?.name ?? null,
      counter: counter === null ? null : String(counter).padStart(4, '0'),
      camera: row.camera,
      date: new Date(localMs).toISOString().slice(0, 10),
      name: row.name.replace(/\.[^.]*$/, ''),
      number: String(index + 1).padStart(4, '0'),
    };
  });
  const named = nameFiles(template, values, extensions[specification.format.kind]);
  return rows.map(({ id }, index) => ({ frame: id, file: named[index]?.name ?? id }));
}
