import type { ReactNode } from 'react';
import type { CameraEntry } from '../../contract/index.ts';
import { pageLabels } from '../../words/index.ts';
import { DiaryList } from './diary-list.tsx';
import { latelyOfAll } from './lately.ts';
import { LineList } from './line-list.tsx';

/** The newest of what all cameras did, and of what strangers tried; the diary under it has the rest. */
export function LatelyList({ cameras }: { readonly cameras: readonly CameraEntry[] }): ReactNode {
  const lines = latelyOfAll(cameras);
  return (
    <section className="lately" aria-labelledby="lately-title">
      <h3 id="lately-title">{pageLabels.lately}</h3>
      <LineList lines={lines} />
      <DiaryList />
    </section>
  );
}
