import { type LocalPart, type Look, neutralLook } from '../../../look/index.ts';
import { lookLabels } from '../../../words/index.ts';

/** The instruments in the order light meets what they turn; then what is read, and what is kept. */
export const instruments = [
  'balance',
  'exposure',
  'curve',
  'channels',
  'hues',
  'monochrome',
  'tint',
  'detail',
  'grain',
  'geometry',
  'target',
  'versions',
] as const;

export type Instrument = (typeof instruments)[number];

export function instrumentName(instrument: Instrument): string {
  return lookLabels[instrument];
}

/** The members of a look that an instrument turns. */
const membersOf: Readonly<Record<Instrument, readonly (keyof Look)[]>> = {
  balance: ['balance'],
  exposure: ['exposureEv', 'flare', 'falloffEv'],
  curve: ['curve'],
  channels: ['cdl'],
  hues: ['bands'],
  monochrome: ['monochrome'],
  tint: ['tint'],
  detail: ['smoothing', 'acutance'],
  grain: ['grain'],
  geometry: ['geometry'],
  target: [],
  versions: [],
};

/** Whether the look does anything by this instrument. */
export function isTurned(look: Look, instrument: Instrument): boolean {
  return membersOf[instrument].some(
    (member) => JSON.stringify(look[member]) !== JSON.stringify(neutralLook[member]),
  );
}

/** Parts that look beyond the point and that the page draws by itself. */
export const drawnHere: ReadonlySet<LocalPart> = new Set<LocalPart>(['geometry', 'falloffEv']);
