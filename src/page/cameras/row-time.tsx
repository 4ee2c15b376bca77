import { type FormEvent, type ReactNode, useEffect, useId, useState } from 'react';
import type { CameraEntry } from '../../contract/index.ts';
import { pageLabels } from '../../words/index.ts';
import { patchCamera, wordsOf } from '../link/index.ts';

const usMax = 1000;

/** How fast the camera's sensor is read: nothing in its files tells it. Taken by Enter and when the field is left. */
export function RowTime({ camera }: { readonly camera: CameraEntry }): ReactNode {
  const id = useId();
  const standing = camera.rowTimeUs === null ? '' : String(camera.rowTimeUs);
  const [text, setText] = useState(standing);
  const [said, setSaid] = useState('');
  useEffect(() => setText(standing), [standing]);
  const take = (event?: FormEvent): void => {
    event?.preventDefault();
    const us = text.trim() === '' ? null : Number(text.trim().replace(',', '.'));
    const isBad = us !== null && !(us > 0 && us <= usMax);
    if (isBad || us === camera.rowTimeUs) {
      setSaid(isBad ? pageLabels.rowTimeBad : '');
      return;
    }
    patchCamera(camera.name, { rowTimeUs: us }).then(
      () => setSaid(pageLabels.rowTimeTaken),
      (thrown: unknown) => setSaid(wordsOf(thrown, pageLabels.notTaken)),
    );
  };
  return (
    <form className="row-time" onSubmit={take}>
      <label htmlFor={id}>{pageLabels.rowTime}</label>
      <span>
        <input
          id={id}
          value={text}
          inputMode="decimal"
          size={7}
          aria-describedby={`${id}-help`}
          onChange={(event) => setText(event.target.value)}
          onBlur={() => take()}
        />{' '}
        {pageLabels.rowTimeUnit}
      </span>
      <details>
        <summary>{pageLabels.rowTimeWhat}</summary>
        <small id={`${id}-help`}>{pageLabels.rowTimeHelp}</small>
      </details>
      <span role="status">{said}</span>
    </form>
  );
}
