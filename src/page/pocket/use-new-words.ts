import { useEffect, useMemo, useRef, useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import { type GuestWord, guestWords, newWords } from '../remarks/guest-words.ts';

const place = 'setside.words-seen';

export interface NewWords {
  /** Said by guests since somebody looked on this phone, the newest first. */
  readonly words: readonly GuestWord[];
  /** Somebody has looked at them. */
  readonly look: () => void;
}

/** What guests said of a job's frames; `onWord` hears of each word that comes in while the page is open and live. */
export function useNewWords(
  frames: readonly Frame[],
  job: string | null,
  isLive: boolean,
  onWord: (word: GuestWord) => void,
): NewWords {
  const words = useMemo(() => guestWords(frames, job), [frames, job]);
  const [seen, setSeen] = useState(seenUpTo);
  const known = useRef<{ readonly job: string | null; readonly ids: Set<string> } | null>(null);
  const latest = useRef(onWord);
  latest.current = onWord;
  useEffect(() => {
    if (!isLive) return;
    const before = known.current;
    // What was there when the page, or this job, was opened is shown and not told.
    known.current = { job, ids: new Set(words.map(({ id }) => id)) };
    if (before === null || before.job !== job) return;
    const first = words.find(({ id }) => !before.ids.has(id));
    if (first !== undefined) latest.current(first);
  }, [words, job, isLive]);
  return {
    words: newWords(words, seen),
    look: () => {
      const newest = words[0]?.at ?? null;
      setSeen(newest);
      keep(newest);
    },
  };
}

function seenUpTo(): string | null {
  try {
    return localStorage.getItem(place);
  } catch {
    return null;
  }
}

function keep(at: string | null): void {
  try {
    if (at !== null) localStorage.setItem(place, at);
  } catch {
    // A browser that keeps nothing shows them once more.
  }
}
