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
  const asked = step === 'asked';
  return (
    <div className="let-go">
      <button type="button" onClick={() => setStep(asked ? 'offered' : 'asked')}>
        {asked ? pageLabels.keepWaiting : pageLabels.waitNoLonger}
      </button>
      {step === 'offered' ? null : (
        <p className="let-go-sheet paper" role="status">
          <span>{asked ? pageLabels.waitNoLongerSure : pageLabels.notTaken}</span>
          {asked ? (
            <button type="button" onClick={() => letGoOf(frame.id).catch(() => setStep('failed'))}>
              {pageLabels.waitNoLonger}
            </button>
          ) : null}
        </p>
      )}
    </div>
  );
}
