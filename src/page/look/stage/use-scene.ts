import { useCallback, useEffect, useState } from 'react';
import type { ExrPicture } from '../../../image/index.ts';
import { fetchScene } from '../../link/index.ts';
import type { LookWork } from '../off-thread/look-work.ts';
import { type SceneFacts, sceneFacts } from '../off-thread/scene-read.ts';

export type SceneState =
  | { readonly state: 'loading'; readonly facts: null; readonly scene: null }
  | { readonly state: 'failed'; readonly facts: null; readonly scene: null }
  /** `of`: the frame whose light it is, which is another than the one asked for until that has come. */
  | { readonly state: 'here'; readonly of: string; readonly facts: SceneFacts; readonly scene: ExrPicture };

const loading: SceneState = { state: 'loading', facts: null, scene: null };
const failed: SceneState = { state: 'failed', facts: null, scene: null };
/** A window that is being dragged wider asks once. */
const settleMs = 150;

/** The light of a frame at about a width; the one that is here stays until a larger one has come. */
export function useScene(
  frame: string,
  version: number,
  widthPx: number | null,
  work: LookWork | null,
): SceneState & { readonly again: () => void } {
  const [held, setHeld] = useState<SceneState>(loading);
  const [tries, setTries] = useState(0);
  const again = useCallback(() => setTries((count) => count + 1), []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another version, or another try, is why it is asked for again
  useEffect(() => {
    if (widthPx === null || work === null) return;
    const gone = new AbortController();
    const timer = setTimeout(() => {
      fetchScene(frame, widthPx, version, gone.signal)
        .then((bytes) => work.readScene(bytes))
        .then(
          (scene) => {
            if (gone.signal.aborted) return;
            setHeld(scene === null ? failed : { state: 'here', of: frame, scene, facts: sceneFacts(scene) });
          },
          () => gone.signal.aborted || setHeld(failed),
        );
    }, settleMs);
    return () => {
      clearTimeout(timer);
      gone.abort();
    };
  }, [frame, version, widthPx, work, tries]);
  return { ...held, again };
}
