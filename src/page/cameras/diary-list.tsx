import { type ReactNode, useEffect, useState } from 'react';
import type { DiaryPage } from '../../contract/index.ts';
import { pageLabels, sentence } from '../../words/index.ts';
import { fetchDiary } from '../link/index.ts';
import { dayTick } from '../set/clock.ts';

/** Everything that happened on the line in the last 30 days, newest first, read when it is opened. */
export function DiaryList(): ReactNode {
  const [open, setOpen] = useState(false);
  return (
    <details className="diary" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{pageLabels.diary}</summary>
      {open ? <Pages /> : null}
    </details>
  );
}

function Pages(): ReactNode {
  const [pages, setPages] = useState<readonly DiaryPage[]>([]);
  const [failed, setFailed] = useState(false);
  const load = (before: string | null, signal: AbortSignal): void => {
    fetchDiary(before, signal).then(
      (page) => {
        setFailed(false);
        setPages((known) => (before === null ? [page] : [...known, page]));
      },
      () => setFailed(!signal.aborted),
    );
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: the first page, once
  useEffect(() => {
    const stop = new AbortController();
    load(null, stop.signal);
    return () => stop.abort();
  }, []);
  const next = pages.at(-1)?.next ?? null;
  const lines = pages.flatMap((page) => page.lines);
  return (
    <>
      {pages.length > 0 && lines.length === 0 ? <p>{pageLabels.diaryEmpty}</p> : null}
      <ol>
        {lines.map(({ at, camera, finding }, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: lines have no name of their own and never change places
          <li key={index}>
            <time dateTime={at}>{dayTick(Date.parse(at))}</time>
            <span>{camera ?? pageLabels.stranger}</span>
            <span>{sentence(finding)}</span>
          </li>
        ))}
      </ol>
      {next === null ? null : (
        <button type="button" onClick={() => load(next, AbortSignal.timeout(loadMs))}>
          {pageLabels.diaryEarlier}
        </button>
      )}
      <p role="status">{failed ? pageLabels.diaryFailed : ''}</p>
    </>
  );
}

const loadMs = 8000;
