import type { Dispatch, ReactNode } from 'react';
import { soundLabels } from '../../words/index.ts';
import type { PageAction, PageState } from '../state/index.ts';
import { type Sound, SoundForm } from '../voice/index.ts';
import { CardDialog } from './card-dialog.tsx';

interface SoundCardProps {
  readonly state: PageState;
  readonly sound: Sound;
  readonly dispatch: Dispatch<PageAction>;
}

/** Where one chooses what is heard from across the room. */
export function SoundCard({ state, sound, dispatch }: SoundCardProps): ReactNode {
  return (
    <CardDialog
      title={soundLabels.title}
      open={state.card === 'sound'}
      onClose={() => dispatch({ type: 'card-closed', card: 'sound' })}
    >
      <SoundForm sound={sound} />
    </CardDialog>
  );
}
