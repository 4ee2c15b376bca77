import type { Dispatch, ReactNode } from 'react';
import {
  actPhrase,
  clientLabels,
  contactLabels,
  handOverLabels,
  jobLabels,
  lineLabels,
  pageLabels,
  remarksButton,
  soundLabels,
} from '../../words/index.ts';
import { whoseAct } from '../choices/whose-act.ts';
import { addressOf, type PageAction, type PageState } from '../state/index.ts';
import { type Sound, soundState } from '../voice/index.ts';
import { useFullScreen } from './use-full-screen.ts';

interface SwitchesProps {
  readonly state: PageState;
  readonly sound: Sound;
  /** Remarks that nobody has settled yet. */
  readonly openRemarks: number;
  readonly dispatch: Dispatch<PageAction>;
  readonly undo: () => void;
}

/** The few things that can be switched, in words. */
export function Switches({ state, sound, openRemarks, dispatch, undo }: SwitchesProps): ReactNode {
  const newest = state.acts?.[0];
  const fullScreen = useFullScreen();
  return (
    <fieldset className="switches paper">
      <legend className="unseen">{pageLabels.switches}</legend>
      {(['sheet', 'client'] as const).map((page) => (
        <a key={page} href={page === 'sheet' ? addressOf({ page, job: null }) : addressOf({ page })}>
          {page === 'sheet' ? contactLabels.title : clientLabels.title}
        </a>
      ))}
      {(['farView', 'dimSurround', 'deliveryMask'] as const).map((what) => (
        <button
          key={what}
          type="button"
          aria-pressed={state[what]}
          onClick={() => dispatch({ type: 'switch', what })}
        >
          {what === 'deliveryMask' ? clientLabels.mask : pageLabels[what]}
        </button>
      ))}
      <button
        type="button"
        aria-pressed={fullScreen.on}
        disabled={!fullScreen.can}
        onClick={fullScreen.toggle}
      >
        {soundLabels.fullScreen}
      </button>
      <button
        type="button"
        data-sound={soundState(sound)}
        onClick={() => dispatch({ type: 'card', card: 'sound' })}
      >
        {sound.waits ? soundLabels.touch : soundLabels.title}
      </button>
      <button type="button" onClick={() => dispatch({ type: 'card', card: 'remarks' })}>
        {remarksButton(openRemarks)}
      </button>
      <button type="button" onClick={() => dispatch({ type: 'card', card: 'camera-sheet' })}>
        {pageLabels.cameraSheet}
      </button>
      <a href={addressOf({ page: 'hand-over', job: null })}>{handOverLabels.title}</a>
      <a href={addressOf({ page: 'line' })}>{lineLabels.toLine}</a>
      <button type="button" onClick={() => dispatch({ type: 'card', card: 'links' })}>
        {pageLabels.links}
      </button>
      <button type="button" onClick={() => dispatch({ type: 'card', card: 'keys' })}>
        {pageLabels.keys}
      </button>
      <button
        type="button"
        disabled={newest === undefined}
        onClick={() => undo()}
        {...(newest === undefined ? {} : { title: jobLabels.undo(actPhrase(newest.what), whoseAct(newest)) })}
      >
        {jobLabels.undoShort}
      </button>
    </fieldset>
  );
}
