import {
  activeParts,
  areNeutralBands,
  isNeutralCdl,
  isNeutralTint,
  type LocalPart,
  type Look,
} from '../../../look/index.ts';
import { lookLabels } from '../../../words/index.ts';

/**
 * The instruments as one works: light and tone, then colour, then what looks beyond the point; then what is read, and what
 * is kept. Light itself takes another way (docs/looks.md): detail before balance, falloff after exposure.
 */
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

/** What an instrument does to light; those that turn nothing do nothing. */
const acts: Readonly<Record<Instrument, (look: Look) => boolean>> = {
  balance: ({ balance }) => balance.from !== 'as-shot',
  exposure: ({ exposureEv, flare, falloffEv }) => exposureEv !== 0 || flare !== 0 || falloffEv !== 0,
  curve: ({ curve }) => curve !== null,
  channels: ({ cdl }) => !isNeutralCdl(cdl),
  hues: ({ bands }) => !areNeutralBands(bands),
  monochrome: ({ monochrome }) => monochrome.amount !== 0,
  tint: ({ tint }) => !isNeutralTint(tint),
  detail: (look) => isActive(look, 'smoothing') || isActive(look, 'acutance'),
  grain: (look) => isActive(look, 'grain'),
  geometry: (look) => isActive(look, 'geometry'),
  target: () => false,
  versions: () => false,
};

/** Whether the look does anything by this instrument; bands without an effect, or a width without strength, do not. */
export function isTurned(look: Look, instrument: Instrument): boolean {
  return acts[instrument](look);
}

function isActive(look: Look, part: LocalPart): boolean {
  return activeParts(look).includes(part);
}

/** Parts that look beyond the point and that the page draws by itself. */
export const drawnHere: ReadonlySet<LocalPart> = new Set<LocalPart>(['geometry', 'falloffEv']);
