import { readFile } from 'node:fs/promises';
import { errorCode, SetsideError } from '../../base/index.ts';
import type { Frame } from '../../contract/index.ts';
import type { Job } from '../../job/index.ts';
import type { PlannedContactSheet } from '../../paper/index.ts';
import type { ContactSheetAnswer, ContactWish, PictureAnswer, PictureQuery } from '../../serve/index.ts';
import { contactPaperLabels, paperLabels } from '../../words/index.ts';
import type { FrameBook } from '../frame-book.ts';
import { version } from '../version.ts';
import { contactSections, isAsked } from './contact-frames.ts';
import { dayAndTime } from './moments.ts';
import type { UnderWay } from './under-way.ts';

export interface ContactSources {
  readonly book: Pick<FrameBook, 'page'>;
  readonly picture: (id: string, query: PictureQuery) => Promise<PictureAnswer | null>;
  readonly underWay: UnderWay;
  readonly now: () => number;
}

/**
 * The contact sheet of a job. Its frames are read and laid out now; each picture when its place on the paper is drawn. Rejects
 * `nothing-to-print`, `no-shot`, `busy`.
 */
export async function contactSheet(
  sources: ContactSources,
  job: Job,
  wish: ContactWish,
): Promise<ContactSheetAnswer> {
  if (wish.shot !== undefined && !job.shots.some(({ id }) => id === wish.shot))
    throw new SetsideError('no-shot', `job ${job.code} has no shot ${wish.shot}`);
  const paper = sources.underWay.begin(job.code, wish.forGuest !== null);
  try {
    const frames = await framesOf(sources, job, wish);
    if (frames.length === 0)
      throw new SetsideError('nothing-to-print', `no frame of ${job.code} is to be printed`);
    const plan = await planned(sources, job, wish, frames, paper.done);
    paper.planned(frames.length);
    return {
      frames: frames.length,
      pages: plan.pages,
      // Ended where it is drawn, where nobody takes it any more, and where a picture cannot be had.
      parts: endedBy(plan.parts(), paper.end),
    };
  } catch (thrown) {
    paper.end();
    throw thrown;
  }
}

/** The parts, and a call when they end, be it before the first was taken: then nothing within the generator runs. */
function endedBy(parts: AsyncGenerator<Uint8Array>, end: () => void): AsyncGenerator<Uint8Array> {
  const { next, return: leave, throw: fail } = parts;
  parts.next = async () => {
    try {
      const step = await next.call(parts);
      if (step.done === true) end();
      return step;
    } catch (thrown) {
      end();
      throw thrown;
    }
  };
  parts.return = (value) => {
    end();
    return leave.call(parts, value);
  };
  parts.throw = (thrown) => {
    end();
    return fail.call(parts, thrown);
  };
  return parts;
}

async function framesOf({ book }: ContactSources, job: Job, wish: ContactWish): Promise<Frame[]> {
  const asked = isAsked(wish);
  const frames: Frame[] = [];
  let after: string | null = null;
  do {
    const page: Awaited<ReturnType<FrameBook['page']>> = await book.page({
      job: job.code,
      limit: 500,
      ...(after === null ? {} : { after }),
    });
    frames.push(...page.frames.filter(asked));
    after = page.next;
  } while (after !== null);
  return frames;
}

async function planned(
  { picture, now }: ContactSources,
  job: Job,
  wish: ContactWish,
  frames: readonly Frame[],
  onFrame: (done: number) => void,
): Promise<PlannedContactSheet> {
  const atMs = now();
  const { planContactSheet } = await import('../../paper/index.ts');
  return planContactSheet({
    title: contactPaperLabels.titleOf(job.code),
    lead: leadOf(job, wish, frames.length),
    size: wish.paper,
    columns: wish.columns,
    sections: contactSections(job, frames, wish.forClient),
    written: paperLabels.written(dayAndTime(atMs), version),
    atMs,
    picture: (frame, width) => jpegOf(picture(frame.id, { width, format: 'jpeg' })),
    onFrame,
  });
}

function leadOf(job: Job, { shot, marks, forClient }: ContactWish, count: number): string[] {
  const names = job.shots.filter(({ id }) => id === shot).map(({ name }) => name);
  return [
    [job.title, job.client === '' ? '' : contactPaperLabels.client(job.client)].filter(Boolean).join(', '),
    [
      contactPaperLabels.frames(count),
      ...(names.length === 0 ? [] : [contactPaperLabels.shotsAsked(names)]),
      ...(marks === undefined ? [] : [contactPaperLabels.marksAsked(marks)]),
    ].join('. '),
    ...(forClient ? [] : [contactPaperLabels.shapes]),
    contactPaperLabels.marks,
  ].filter((line) => line !== '');
}

/** What of a rendering cannot be had is told on the paper in its place; a station that is closing draws no further. */
async function jpegOf(asked: Promise<PictureAnswer | null>): Promise<Uint8Array | null> {
  try {
    const answer = await asked;
    if (answer === null || answer.kind === 'none') return null;
    return answer.content.kind === 'bytes' ? answer.content.bytes : await readFile(answer.content.path);
  } catch (thrown) {
    if (errorCode(thrown) === 'worker-pool-closed') throw thrown;
    return null;
  }
}
