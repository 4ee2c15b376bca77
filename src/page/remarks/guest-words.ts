import type { Frame } from '../../contract/index.ts';

/** Something that a guest said of a frame, a remark or an answer, while nobody has settled it. */
export interface GuestWord {
  readonly id: string;
  readonly frame: string;
  /** RFC 3339, the station's clock. */
  readonly at: string;
  readonly name: string;
  readonly text: string;
}

/** What guests said of the frames of a job and nobody has settled, the newest first. */
export function guestWords(frames: readonly Frame[], job: string | null): GuestWord[] {
  const words = frames.flatMap((frame) =>
    frame.job === job
      ? frame.remarks.flatMap((remark) =>
          remark.settled === null
            ? [remark, ...remark.answers].flatMap(({ id, at, by, text }) =>
                by.from === 'guest' ? { id, frame: frame.id, at, name: by.name, text } : [],
              )
            : [],
        )
      : [],
  );
  return words.sort((a, b) => b.at.localeCompare(a.at));
}

/** Those that came after the moment up to which somebody has looked; null: nobody has looked yet. */
export function newWords(words: readonly GuestWord[], seenUpTo: string | null): readonly GuestWord[] {
  return seenUpTo === null ? words : words.filter(({ at }) => at > seenUpTo);
}
