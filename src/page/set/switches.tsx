import type { Dispatch, ReactNode } from 'react';
import { actPhrase, jobLabels, pageLabels } from '../../words/index.ts';
import type { PageAction, PageState } from '../state/index.ts';

interface SwitchesProps {
  readonly state: PageState;
  readonly dispatch: Dispatch<PageAction>;
  readonly undo: () => void;
}

/** The few things that can be switched, in words. */
export function Switches({ state, dispatch, undo }: SwitchesProps): ReactNode {
  const newest = state.acts?.[0];
  return (
    <fieldset className="switches paper">
      <legend className="unseen">{pageLabels.switches}</legend>
      {(['farView', 'dimSurround'] as const).map((what) => (
        <button
          key={what}
          type="button"
          aria-pressed={state[what]}
          onClick={() => dispatch({ type: 'switch', what })}
        >
          {pageLabels[what]}
        </button>
      ))}
      <button type="button" onClick={() => dispatch({ type: 'card', card: 'camera-sheet' })}>
        {pageLabels.cameraSheet}
      </button>
      <button type="button" onClick={() => dispatch({ type: 'card', card: 'links' })}>
        {pageLabels.links}
      </button>
      <button type="button" onClick={() => dispatch({ type: 'card', card: 'keys' })}>
        {pageLabels.keys}
      </button>
      <button
        type="button"
        disabled={newest === undefined}
        onClick={undo}
        {...(newest === undefined ? {} : { title: jobLabels.undo(actPhrase(newest.what)) })}
      >
        {jobLabels.undoShort}
      </button>
    </fieldset>
  );
}
