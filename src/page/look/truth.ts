import { activeParts, type LocalPart } from '../../look/index.ts';
import { beforePhrase, lookLabels, willDifferPhrase } from '../../words/index.ts';
import { drawnHere } from './instruments/instruments.ts';
import type { Before } from './stage/use-before.ts';
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
  /** What is left of the edge. */
  readonly before: Pick<Before, 'base' | 'look' | 'isRecut'> & { readonly tried: Try['state'] };
  /** Two kept versions lie over the picture. */
  readonly isCompared: boolean;
  /** All of the frame is shown, with the crop laid over it. */
  readonly isCropping: boolean;
}

/** What is seen is to what is delivered, on both sides of the edge; nothing as long as there is no picture. */
export function truthOf(seen: Seen): string {
  if (seen.isCompared) return lookLabels.comparedTruth;
  const now = truthNow(seen);
  const before = seen.scene.state === 'here' && seen.scene.of === seen.frame ? truthBefore(seen.before) : '';
  return before === '' ? now : `${now.replace(/\.$/, '')}. ${before}`;
}

function truthBefore({ base, look, isRecut, tried }: Seen['before']): string {
  if (base === null || look === null) return '';
  const beyond = tried === 'here' ? [] : activeParts(look).filter((part) => !drawnHere.has(part));
  return beforePhrase(base.name, base.version, isRecut, beyond.join(' '));
}

function truthNow({ frame, scene, beyond, isLocal, isAtRest, isCropping, tried }: Seen): string {
  if (scene.state !== 'here') return '';
  if (scene.of !== frame) return lookLabels.earlierStill;
  if (scene.facts.light === 'raster') return lookLabels.raster;
  if (isCropping) return lookLabels.cropping;
  if (!isLocal) return isAtRest ? lookLabels.asDelivered : lookLabels.compiling;
  if (tried === 'here') return lookLabels.asRendered;
  const differs = beyond.length === 0 ? lookLabels.nearlyDelivered : willDifferPhrase(beyond.join(' '));
  if (tried === 'called-off') return `${differs}. ${lookLabels.calledOff}`;
  return tried === 'failed' ? `${differs}. ${lookLabels.tryFailed}` : differs;
}
