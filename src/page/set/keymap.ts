import type { Mark } from '../../facts/index.ts';
import { questions } from '../../facts/index.ts';
import {
  clientLabels,
  jobLabels,
  markNames,
  pageLabels,
  readingLabels,
  remarkLabels,
  soundLabels,
} from '../../words/index.ts';
import type { PageAction } from '../state/index.ts';
import type { ZoomStep } from '../viewport/index.ts';

/** What a key does: something to the page, to the frame, to the shot that is current, or a step closer to the picture. */
export type KeyMeaning =
  | PageAction
  | { readonly type: 'mark'; readonly mark: Mark }
  | { readonly type: 'step-shot'; readonly by: -1 | 1 }
  | { readonly type: 'undo' }
  /** Lays the open verdict's map over the picture, or changes how the reference is seen. */
  | { readonly type: 'lay'; readonly what: 'on' | 'ghost' }
  | { readonly type: 'put-back' }
  | { readonly type: 'zoom'; readonly step: ZoomStep };

export interface KeyBinding {
  /** `KeyboardEvent.key`, letters in lower case. */
  readonly key: string;
  /** As printed on the key. */
  readonly cap: string;
  readonly does: string;
  /** A printable character: can be switched off (WCAG 2.2, 2.1.4), since a voice or a stray hand types letters too. */
  readonly letter: boolean;
  readonly meaning: KeyMeaning;
  /** Only while a part of the picture is looked at closely; such a one goes before another of the same key. */
  readonly close?: true;
  /** With Ctrl, or with Cmd where that is the system's way. */
  readonly chord?: true;
  /** With Shift as well; of chords only. */
  readonly shift?: true;
}

const plain = (key: string, cap: string, does: string, meaning: KeyMeaning): KeyBinding => ({
  key,
  cap,
  does,
  letter: false,
  meaning,
});
const letter = (key: string, does: string, meaning: KeyMeaning): KeyBinding => ({
  key,
  cap: key.toUpperCase(),
  does,
  letter: true,
  meaning,
});

const zoom = (key: string, cap: string, does: string, step: ZoomStep): KeyBinding =>
  plain(key, cap, does, { type: 'zoom', step });
const whenClose = (key: string, cap: string, does: string, step: ZoomStep): KeyBinding => ({
  ...zoom(key, cap, does, step),
  close: true,
});

/** Every key of the page: time runs down the rail, so down is later. The help card is printed from this list. */
export const keymap: readonly KeyBinding[] = [
  whenClose('ArrowLeft', '←', pageLabels.keyMove, 'left'),
  whenClose('ArrowRight', '→', pageLabels.keyMove, 'right'),
  whenClose('ArrowUp', '↑', pageLabels.keyMove, 'up'),
  whenClose('ArrowDown', '↓', pageLabels.keyMove, 'down'),
  whenClose('Escape', 'Esc', pageLabels.keyWhole, 'whole'),
  plain('PageUp', 'Page ↑', pageLabels.keyEarlier, { type: 'step', by: -1 }),
  plain('PageDown', 'Page ↓', pageLabels.keyLater, { type: 'step', by: 1 }),
  plain('ArrowUp', '↑', pageLabels.keyEarlier, { type: 'step', by: -1 }),
  plain('ArrowDown', '↓', pageLabels.keyLater, { type: 'step', by: 1 }),
  plain('Home', 'Home', pageLabels.keyFirst, { type: 'to-first' }),
  plain('End', 'End', pageLabels.keyNewest, { type: 'to-newest' }),
  plain('Escape', 'Esc', pageLabels.keyClose, { type: 'open', question: null }),
  ...questions.map((question, index) =>
    letter(String(index + 1), pageLabels.keyVerdict, { type: 'open', question }),
  ),
  letter('l', readingLabels.keyLay, { type: 'lay', what: 'on' }),
  letter('d', readingLabels.keyGhost, { type: 'lay', what: 'ghost' }),
  { ...zoom('+', '+', pageLabels.keyScale, 'closer'), letter: true },
  { ...zoom('=', '=', pageLabels.keyScale, 'closer'), letter: true },
  { ...zoom('-', '−', pageLabels.keyScale, 'farther'), letter: true },
  letter('p', pageLabels.keyPixels, { type: 'zoom', step: 'pixels' }),
  letter('h', markNames.hero, { type: 'mark', mark: 'hero' }),
  letter('s', markNames.select, { type: 'mark', mark: 'select' }),
  letter('a', markNames.alternate, { type: 'mark', mark: 'alternate' }),
  letter('o', markNames.out, { type: 'mark', mark: 'out' }),
  letter('n', jobLabels.keyNextShot, { type: 'step-shot', by: 1 }),
  letter('b', jobLabels.keyShotBefore, { type: 'step-shot', by: -1 }),
  letter('g', jobLabels.keyMove, { type: 'card', card: 'move' }),
  letter('r', remarkLabels.keyRemarks, { type: 'card', card: 'remarks' }),
  letter('f', jobLabels.keyFrameCard, { type: 'card', card: 'frame' }),
  { ...plain('z', 'Ctrl Z', jobLabels.keyUndo, { type: 'undo' }), chord: true },
  {
    ...plain('z', 'Ctrl Shift Z', jobLabels.keyPutBack, { type: 'put-back' }),
    chord: true,
    shift: true,
  },
  letter('m', pageLabels.farView, { type: 'switch', what: 'farView' }),
  letter('u', pageLabels.dimSurround, { type: 'switch', what: 'dimSurround' }),
  letter('k', clientLabels.keyMask, { type: 'switch', what: 'deliveryMask' }),
  letter('v', soundLabels.title, { type: 'card', card: 'sound' }),
  letter('e', pageLabels.cameraSheet, { type: 'card', card: 'camera-sheet' }),
  letter('w', pageLabels.links, { type: 'card', card: 'links' }),
  letter('?', pageLabels.keyHelp, { type: 'card', card: 'keys' }),
];
