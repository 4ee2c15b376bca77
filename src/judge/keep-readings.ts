import {
  type AgainstReference,
  type ColourFigures,
  type ColourReading,
  type FrameReadings,
  type KeptReadings,
  type LightTrend,
  type PatchReading,
  type PlaceShift,
  type ReadingDetail,
  readingsEdition,
} from '../facts/index.ts';
import { type Settings, settingsStops } from './exposed/exposure-value.ts';
import { lightDifference } from './exposed/light-map.ts';
import { softPartOf } from './sharp/soft-part.ts';

/**
 * Readings parted into what every look at the frame needs, and what plots are made of. `reference`: what its place was
 * held against, or null.
 */
export function partReadings(
  { sharp, exposed, place, colour, colours }: FrameReadings,
  trend: LightTrend | null,
  reference: string | null,
): { readonly kept: KeptReadings; readonly detail: ReadingDetail } {
  const { map, profile, ...sharpFigures } = sharp;
  const { light, histogram, lost, ...exposedFigures } = exposed;
  const { figures, patches } = partColour(colour);
  return {
    kept: {
      edition: readingsEdition,
      sharp: sharpFigures,
      exposed: exposedFigures,
      place: { ...place, reference },
      colour: figures,
      drift: null,
      trend,
      against: null,
      said: {},
    },
    detail: { map, profile, light, histogram, lost, patches, colours },
  };
}

function partColour(colour: ColourReading | null): {
  readonly figures: ColourFigures | null;
  readonly patches: readonly PatchReading[] | null;
} {
  if (colour === null || !colour.found) return { figures: colour, patches: null };
  const { patches, ...figures } = colour;
  return { figures, patches };
}

/** What a reference is known by. */
export interface ReferenceReadings {
  readonly frame: string;
  readonly readings: Pick<KeptReadings, 'sharp' | 'exposed'>;
  readonly detail: Pick<ReadingDetail, 'light' | 'map'>;
  readonly settings: Settings | null;
}

/**
 * Holds a frame's light against the reference's. What the dials were changed by is taken off, so that a stop less of
 * exposure time is not a stop less of light. Previews are held against nothing.
 */
export function againstReference(
  { sharp, exposed, place }: Pick<KeptReadings, 'sharp' | 'exposed' | 'place'>,
  detail: Pick<ReadingDetail, 'light' | 'map'>,
  settings: Settings | null,
  reference: ReferenceReadings,
): AgainstReference {
  const alike = exposed.source === reference.readings.exposed.source && exposed.source !== 'preview';
  const difference = alike ? lightDifference(detail.light, reference.detail.light) : null;
  const byDials = settingsStops(settings, reference.settings) ?? 0;
  return {
    frame: reference.frame,
    sharp: {
      source: reference.readings.sharp.source,
      blur: reference.readings.sharp.blur,
      softPart: alike
        ? softPartOf(
            detail.map,
            reference.detail.map,
            isAsClear(sharp, reference.readings.sharp)
              ? { own: detail.light, reference: reference.detail.light }
              : null,
            placedBy(place, reference.frame),
          )
        : null,
      atSpot: sharp.source === reference.readings.sharp.source ? reference.readings.sharp.atSpot : null,
    },
    light: difference === null ? null : { ...difference, ev: difference.ev - byDials },
    striped: alike ? reference.readings.exposed.banding !== null : null,
  };
}

/** Where a frame lies against this reference; null where that is not told, or was measured against another picture. */
function placedBy({ reference, shift }: KeptReadings['place'], frame: string): PlaceShift | null {
  return reference !== frame || shift === null || 'unknown' in shift ? null : shift;
}

/** Edges that stand out from noise less than half as much as the reference's may be lost in it. */
const clearShare = 0.5;

function isAsClear(own: KeptReadings['sharp'], reference: KeptReadings['sharp']): boolean {
  const [here, there] = [own.atSpot?.snr ?? null, reference.atSpot?.snr ?? null];
  return here !== null && there !== null && here >= clearShare * there;
}
