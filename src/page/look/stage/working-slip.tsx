import { type ReactNode, useEffect, useLayoutEffect, useRef, useState } from 'react';
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
  const button = useRef<HTMLButtonElement>(null);
  useFocusFallback(button);
  useEffect(() => {
    const timer = setTimeout(() => setShown(true), worthSayingMs);
    return () => clearTimeout(timer);
  }, []);
  if (!isShown) return null;
  return (
    <div className="look-working paper" data-testid="look-working">
      <span role="status">{words}</span>
      {share === null ? null : <progress value={share} max={1} aria-label={words} />}
      <button ref={button} type="button" className="press" onClick={onPress}>
        {press}
      </button>
    </div>
  );
}

/** Whoever stands on a button that goes with its slip stands on the picture then, and not at the top of the page. */
function useFocusFallback(button: { readonly current: HTMLButtonElement | null }): void {
  const shown = useRef<HTMLButtonElement | null>(null);
  useLayoutEffect(() => {
    shown.current = button.current;
  });
  useLayoutEffect(
    () => () => {
      const own = shown.current;
      if (own !== null && own === document.activeElement) own.closest<HTMLElement>('.look-area')?.focus();
    },
    [],
  );
}

/** The station's rendering of the look at hand, as long as it is made, or was called off. */
export function TrySlip({ tried }: { readonly tried: Tried }): ReactNode {
  const slip = slipOf(tried);
  // One slip for all of it: its button stays where it is, with whoever stands on it.
  return slip === null ? null : <WorkingSlip {...slip} share={null} />;
}

function slipOf({ now, callOff, again }: Tried): Omit<WorkingSlipProps, 'share'> | null {
  if (now.state === 'rendering')
    return { words: lookLabels.rendering, press: lookLabels.callOff, onPress: callOff };
  if (now.state !== 'called-off' && now.state !== 'failed') return null;
  const words = now.state === 'failed' ? lookLabels.tryFailed : lookLabels.calledOff;
  return { words, press: lookLabels.renderAfterAll, onPress: again };
}
