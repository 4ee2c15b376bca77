import { SetsideError } from '../../base/index.ts';
import type { DeliveryPlan } from '../../contract/index.ts';
import {
  defaultTemplate,
  type MetadataSheet,
  type NameValues,
  nameFiles,
  placeholdersOf,
  planSize,
  type Specification,
  type WordsFrame,
} from '../../deliver/index.ts';
import { type Finding, inChosenOrder, isOfTheShoot } from '../../facts/index.ts';
import type { Job } from '../../job/index.ts';
import { counterOf } from '../../metadata/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { FrameBook } from '../frame-book.ts';
import { pictureOfRow } from '../picture-of-row.ts';
import type { OrderedFrame } from './delivery-log.ts';
import { extensionOf, numberText } from './name-when-made.ts';
import { exampleOf, wordsBefore } from './words-before.ts';

/** Frames that are read at a time. */
const pageSize = 200;

/** The frames shot by shot as the list has them, in each as somebody put its chosen ones; those of no shot last. Errors: `no-frame`, `nothing-to-deliver`. */
export async function framesToDeliver(
  book: Pick<FrameBook, 'rows' | 'row'>,
  { code: job, shots }: Pick<Job, 'code' | 'shots'>,
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
      const marked = page.frames.filter(({ mark }) => specification.marks.includes(mark));
      rows.push(...marked.filter(isOfTheShoot));
      after = page.next;
    } while (after !== null);
  }
  if (rows.length > 0) {
    const known = new Set(shots.map(({ id }) => id));
    return [
      ...shots.flatMap(({ id, order }) =>
        inChosenOrder(
          rows.filter(({ shot }) => shot === id),
          order ?? [],
        ),
      ),
      ...rows.filter(({ shot }) => shot === null || !known.has(shot)),
    ];
  }
  const marks = specification.marks.join(', ');
  throw new SetsideError('nothing-to-deliver', `no frame of ${job} has one of the marks ${marks}`);
}

/** The specification's template, else the job's, else the plain one. */
export function templateOf({ handOver: { naming: own } }: Job, { naming }: Specification): string {
  // A job's template may have been written before anybody said what it can hold.
  const usable = own !== '' && placeholdersOf(own).unknown.length === 0 ? own : defaultTemplate;
  return naming === '' ? usable : naming;
}

/** A name for each, as far as it can be said before: a number counts those of which a file may be made (`nameWhenMade`). */
export function namesOf(
  rows: readonly FrameRow[],
  job: Job,
  specification: Specification,
  zoneOffsetMinutes: number,
): readonly OrderedFrame[] {
  let count = 0;
  const values = rows.map((row) => {
    const number = pictureOfRow(row).state === 'cannot' ? null : numberText(++count);
    return nameValues(row, number, job, zoneOffsetMinutes);
  });
  const named = nameFiles(templateOf(job, specification), values, extensionOf(specification));
  return rows.map((row, index) => ({
    frame: row.id,
    file: named[index]?.name ?? row.id,
    known: knownOf(row, job, zoneOffsetMinutes),
    naming: values[index] ?? null,
  }));
}

function nameValues(row: FrameRow, number: string | null, job: Job, zoneOffsetMinutes: number): NameValues {
  const counter = counterOf(row.name);
  return {
    job: job.code,
    shot: shotOf(row, job)?.name ?? null,
    counter: counter === null ? null : String(counter).padStart(4, '0'),
    camera: row.camera,
    date: localTime(row.shutterMs ?? row.orderMs, zoneOffsetMinutes).slice(0, 10),
    name: stemOf(row),
    number,
  };
}

/** What the words of its picture are filled in with. */
function knownOf(row: FrameRow, job: Job, zoneOffsetMinutes: number): WordsFrame {
  const shot = shotOf(row, job);
  const createdAt = row.shutterMs === null ? null : localTime(row.shutterMs, zoneOffsetMinutes);
  const date = createdAt?.slice(0, 10) ?? null;
  return {
    id: row.id,
    shot: shot?.name ?? null,
    createdAt,
    values: {
      client: job.client,
      job: job.code,
      title: job.title,
      place: job.place,
      shot: shot?.name ?? null,
      description: shot?.description ?? null,
      name: stemOf(row),
      date,
      year: date?.slice(0, 4) ?? null,
    },
  };
}

function shotOf({ shot }: FrameRow, { shots }: Job): Job['shots'][number] | undefined {
  return shots.find(({ id }) => id === shot);
}

function stemOf({ name }: FrameRow): string {
  return name.replace(/\.[^.]*$/, '');
}

/** `YYYY-MM-DDThh:mm:ss±hh:mm`. */
function localTime(ms: number, zoneOffsetMinutes: number): string {
  const local = new Date(ms + zoneOffsetMinutes * 60_000).toISOString().slice(0, 19);
  const away = Math.abs(zoneOffsetMinutes);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${local}${zoneOffsetMinutes < 0 ? '-' : '+'}${two(Math.floor(away / 60))}:${two(away % 60)}`;
}

/** What can be said of each before it is made: the size of its picture is known once it was rendered. */
export function planOf(
  rows: readonly FrameRow[],
  ordered: readonly OrderedFrame[],
  specification: Specification,
  sheet: MetadataSheet | null,
): DeliveryPlan {
  const files = new Map(ordered.map(({ frame, file }) => [frame, file]));
  const said = new Map(ordered.map((each) => [each.frame, wordsBefore(each, specification, sheet)]));
  return {
    title: specification.title,
    files: rows.map((row) => ({
      frame: row.id,
      original: row.name,
      file: files.get(row.id) ?? '',
      findings: [...saidBefore(row, specification), ...(said.get(row.id)?.findings ?? [])].map(
        ({ code, args }) => ({ code, args: { ...args } }),
      ),
    })),
    example: exampleOf(ordered[0], specification, sheet),
  };
}

function saidBefore(row: FrameRow, { size, enlarge, background }: Specification): readonly Finding[] {
  const picture = pictureOfRow(row);
  if (picture.state === 'cannot') return [picture.reason];
  if (picture.state !== 'rendered') return [{ code: 'deliver.not-rendered', args: { name: row.name } }];
  const mayExtend = background.kind === 'white' && background.extend;
  const whole = { widthPx: picture.width, heightPx: picture.height };
  const { findings } = planSize(whole, null, { size, enlarge, mayExtend });
  // Nobody has looked for the subject yet: that it was not found would be untrue.
  return findings.map((each) =>
    each.code === 'deliver.no-subject' ? { ...each, code: 'deliver.subject-not-looked-for' } : each,
  );
}
