import { type ReactNode, useEffect, useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import { pageLabels } from '../../words/index.ts';
import { letGoOf } from '../link/index.ts';

/**
 * Gives a broken-off file up. It is asked once more, since only the camera could send the rest; what had come stays on
 * the disk.
 */
export function LetGo({ frame }: { readonly frame: Frame }): ReactNode {
  const [step, setStep] = useState<'offered' | 'asked' | 'failed'>('offered');
  // biome-ignore lint/correctness/useExhaustiveDependencies: another frame is another question
  useEffect(() => setStep('offered'), [frame.id]);
  if (!frame.files.some(({ state }) => state === 'broken-off')) return null;
  if (step !== 'asked') {
    return (
      <p className="let-go">
        {step === 'failed' ? <span role="status">{pageLabels.notTaken}</span> : null}
        <button type="button" onClick={() => setStep('asked')}>
          {pageLabels.waitNoLonger}
        </button>
      </p>
    );
  }
  return (
    <p className="let-go" role="status">
      <span>{pageLabels.waitNoLongerSure}</span>
      <button type="button" onClick={() => letGoOf(frame.id).catch(() => setStep('failed'))}>
        {pageLabels.waitNoLonger}
      </button>
      <button type="button" onClick={() => setStep('offered')}>
        {pageLabels.keepWaiting}
      </button>
    </p>
  );
}
