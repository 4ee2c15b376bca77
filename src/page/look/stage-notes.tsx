import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { lookLabels } from '../../words/index.ts';
import type { PageState } from '../state/index.ts';
import type { SceneState } from './stage/use-scene.ts';

/** Over the picture: that its light is on its way, or did not come. */
export function SceneNote({
  scene,
  again,
}: {
  readonly scene: SceneState;
  readonly again: () => void;
}): ReactNode {
  if (scene.state === 'failed')
    return (
      <p className="look-empty paper" role="alert">
        {lookLabels.failed}{' '}
        <button type="button" className="press" onClick={again}>
          {lookLabels.again}
        </button>
      </p>
    );
  if (scene.state === 'loading')
    return (
      <p className="look-empty paper" role="status">
        {lookLabels.loading}
      </p>
    );
  return null;
}

/** Why there is no picture to work on. */
export function emptyWords(state: PageState, frame: Frame | null, isAsked: boolean): string {
  if (state.link.state === 'connecting') return lookLabels.loading;
  if (frame === null) return isAsked ? lookLabels.noFrame : lookLabels.noFrames;
  return frame.picture.state === 'cannot' ? lookLabels.cannot : lookLabels.notYet;
}
