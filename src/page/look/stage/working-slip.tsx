import { type ReactNode, useEffect, useState } from 'react';
import { lookLabels } from '../../../words/index.ts';
import type { Tried } from './use-try.ts';

interface WorkingSlipProps {
  readonly words: string;
  /** How much of it is done, 0 … 1; null: that is not known. */
  readonly share: number | null;
  readonly press: string;
  readonly onPress: () => void;
}

/** What takes less is not worth a word, ms. */
const worthSayingMs = 500;

/** Lies at the foot of the picture while something takes its time, and lets it be called off. */
export function WorkingSlip({ words, share, press, onPress }: WorkingSlipProps): ReactNode {
  const [isShown, setShown] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setShown(true), worthSayingMs);
    return () => clearTimeout(timer);
  }, []);
  if (!isShown) return null;
  return (
    <div className="look-working paper" data-testid="look-working">
      <span role="status">{words}</span>
      {share === null ? null : <progress value={share} max={1} aria-label={words} />}
      <button type="button" className="press" onClick={onPress}>
        {press}
      </button>
    </div>
  );
}

/** The station's rendering of the look at hand, as long as it is made, or was called off. */
export function TrySlip({ tried }: { readonly tried: Tried }): ReactNode {
  if (tried.now.state === 'rendering')
    return (
      <WorkingSlip
        key="rendering"
        words={lookLabels.rendering}
        share={null}
        press={lookLabels.callOff}
        onPress={tried.callOff}
      />
    );
  if (tried.now.state !== 'called-off' && tried.now.state !== 'failed') return null;
  const words = tried.now.state === 'failed' ? lookLabels.tryFailed : lookLabels.calledOff;
  return (
    <WorkingSlip
      key="over"
      words={words}
      share={null}
      press={lookLabels.renderAfterAll}
      onPress={tried.again}
    />
  );
}
