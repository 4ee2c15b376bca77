import { type ReactNode, useEffect } from 'react';
import { actPhrase, jobLabels, jobPageLabels } from '../../words/index.ts';
import { ActsDone } from '../choices/acts-done.tsx';
import { type TakeBack, takenBackWords, useTakeBack } from '../choices/use-take-back.ts';
import { whoseAct } from '../choices/whose-act.ts';
import { addressOf, type PageState } from '../state/index.ts';
import { isTypedInto } from '../typed-into.ts';

/** The way to the Set page, what was taken back, and the ways back. */
export function TopLine({ state }: { readonly state: PageState }): ReactNode {
  const takeBack = useTakeBack();
  const { last, undo, putBack, refusal, working } = takeBack;
  useUndoKeys(takeBack);
  const newest = state.acts?.[0];
  const told = working
    ? jobLabels.takingBack
    : refusal !== ''
      ? refusal
      : last === null
        ? ''
        : takenBackWords(last);
  return (
    <header className="top-line paper">
      <a href={addressOf({ page: 'set' })}>← {jobPageLabels.toSet}</a>
      <p role="status" className="top-said">
        {state.link.state === 'lost' ? jobPageLabels.lost : told}
      </p>
      {last?.how === 'taken-back' ? (
        <button type="button" className="press" onClick={putBack}>
          {jobLabels.putBack}
        </button>
      ) : null}
      <ActsDone acts={state.acts ?? []} told={state.told} undo={undo} />
      {newest === undefined ? null : (
        <button type="button" className="press" onClick={() => undo(newest)}>
          {jobLabels.undo(actPhrase(newest.what), whoseAct(newest))}
        </button>
      )}
    </header>
  );
}

/** As on the Set page; in a field the keys are the browser's, which takes back what is typed. */
function useUndoKeys({ undo, putBack }: Pick<TakeBack, 'undo' | 'putBack'>): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.repeat) return;
      if (event.key.toLowerCase() !== 'z' || isTypedInto(event)) return;
      event.preventDefault();
      if (event.shiftKey) putBack();
      else undo();
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [undo, putBack]);
}
