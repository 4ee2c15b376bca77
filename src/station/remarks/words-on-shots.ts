import { type Agreement, agreementStanding, heroesSeen, type SeenPicture } from '../../facts/index.ts';
import type { Job } from '../../job/index.ts';
import { pageFramesMax } from '../../register/index.ts';
import type { FrameBook } from '../frame-book.ts';

/** As guests see them now. A shot has a handful; more than a page holds are no heroes. */
export async function heroesOf(
  book: Pick<FrameBook, 'page'>,
  job: string,
  shot: string,
): Promise<SeenPicture[]> {
  const { frames } = await book.page({ job, shot, mark: 'hero', limit: pageFramesMax });
  return heroesSeen(frames, shot);
}

/** How the client's word stands on each shot of a job of which somebody gave theirs, for the strike check. */
export async function wordsOnShots(
  book: Pick<FrameBook, 'page'>,
  job: Job | null,
): Promise<ReadonlyMap<string, Agreement>> {
  const words = new Map<string, Agreement>();
  if (job === null) return words;
  for (const shot of new Set(job.agreements.map((each) => each.shot))) {
    const heroes = await heroesOf(book, job.code, shot);
    const stands = job.agreements.some(
      ({ shot: of, pictures }) => of === shot && agreementStanding(pictures, heroes) === 'stands',
    );
    words.set(shot, stands ? 'given' : 'older');
  }
  return words;
}
