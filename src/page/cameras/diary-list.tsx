import { type ReactNode, useEffect, useState } from 'react';
import type { DiaryPage } from '../../contract/index.ts';
import { pageLabels } from '../../words/index.ts';
import { fetchDiary } from '../link/index.ts';
import { LineList } from './line-list.tsx';

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
      <LineList lines={lines} />
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
