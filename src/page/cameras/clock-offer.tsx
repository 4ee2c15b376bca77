import { type ReactNode, useState } from 'react';
import type { CameraEntry } from '../../contract/index.ts';
import { clockLabels, pageLabels, sentence } from '../../words/index.ts';
import { patchCamera, wordsOf } from '../link/index.ts';
import { clockOffBy } from '../state/index.ts';

/** What the clock slate showed of a camera's clock, and the way to put it right for all of its frames. */
export function ClockOffer({ camera }: { readonly camera: CameraEntry }): ReactNode {
  const [refusal, setRefusal] = useState('');
  const off = clockOffBy(camera);
  if (camera.clockSeen === null) return null;
  if (off === null) return <p className="clock-offer">{clockLabels.right(camera.name)}</p>;
  const { offsetMs } = camera.clockSeen;
  const putRight = (): void => {
    patchCamera(camera.name, { clock: { offsetMs, since: 'always' } }).then(
      () => setRefusal(''),
      (thrown: unknown) => setRefusal(wordsOf(thrown, pageLabels.notTaken)),
    );
  };
  return (
    <div className="clock-offer">
      <p>{sentence(off)}</p>
      <button type="button" onClick={putRight}>
        {clockLabels.putRight(camera.name)}
      </button>
      <p role="status">{refusal}</p>
    </div>
  );
}
