import type { LocalPart } from '../../look/index.ts';
import { lookLabels, willDifferPhrase } from '../../words/index.ts';
import type { SceneState } from './stage/use-scene.ts';
import type { Try } from './stage/use-try.ts';

export interface Seen {
  /** The frame that is asked for. */
  readonly frame: string | null;
  readonly scene: SceneState;
  /** Parts of the look that the page does not draw by itself. */
  readonly beyond: readonly LocalPart[];
  /** Whether any part looks beyond the point: then the station's rendering is waited for. */
  readonly isLocal: boolean;
  /** Whether the table that is shown is the one of deliveries. */
  readonly isAtRest: boolean;
  readonly tried: Try['state'];
}

/** What the picture on the canvas is to what is delivered; nothing as long as there is none. */
export function truthOf({ frame, scene, beyond, isLocal, isAtRest, tried }: Seen): string {
  if (scene.state !== 'here') return '';
  if (scene.of !== frame) return lookLabels.earlierStill;
  if (scene.facts.light === 'raster') return lookLabels.raster;
  if (!isLocal) return isAtRest ? lookLabels.asDelivered : lookLabels.compiling;
  if (tried === 'here') return lookLabels.asRendered;
  const differs = beyond.length === 0 ? lookLabels.nearlyDelivered : willDifferPhrase(beyond.join(' '));
  if (tried === 'rendering') return `${differs}. ${lookLabels.rendering}`;
  if (tried === 'called-off') return `${differs}. ${lookLabels.calledOff}`;
  return tried === 'failed' ? `${differs}. ${lookLabels.tryFailed}` : differs;
}
