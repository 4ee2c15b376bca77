import type { KeptReadings, Question, SettingChange, Verdict } from '../../facts/index.ts';
import {
  type InPlaceFacts,
  judgeColour,
  judgeExposed,
  judgeInPlace,
  judgeSharp,
  notMeasured,
} from '../../judge/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { FrameLimits } from './frame-limits.ts';
import { withHertz } from './mains.ts';
import { deliveredByItself } from './reference-holder.ts';
import { mmPerPxOf } from './scale-of.ts';
import { wantsTarget } from './stale.ts';

type PixelVerdicts = Readonly<Record<Exclude<Question, 'arrived'>, Verdict>>;

const nothingRead: PixelVerdicts = {
  sharp: notMeasured,
  exposed: notMeasured,
  inPlace: notMeasured,
  colour: notMeasured,
};

/** What the readings of a frame's pixels mean now; `settings`: what its camera is set otherwise to than for its reference. */
export function pixelVerdicts(
  row: Pick<FrameRow, 'readings' | 'purpose' | 'picture' | 'capture' | 'camera'>,
  limits: FrameLimits,
  settings: readonly SettingChange[],
): PixelVerdicts {
  const { readings, purpose } = row;
  if (readings === null) return nothingRead;
  const { sharp, exposed, place, colour, trend, said } = readings;
  const { tolerances } = limits;
  const against = readings.against?.frame === limits.reference ? readings.against : null;
  return {
    sharp: judgeSharp({
      reading: sharp,
      tolerances,
      reference: against?.sharp ?? null,
      previous: said.sharp ?? null,
    }),
    exposed: judgeExposed({
      reading: withHertz(exposed, row, limits.rowTimeUs),
      tolerances,
      fromReference: against?.light ?? null,
      referenceStriped: against?.striped ?? null,
      trend,
      shift: place.shift,
      settings,
      whiteBackdrop: tolerances.backdropGreyPercent !== undefined,
      previous: said.exposed ?? null,
    }),
    inPlace: judgeInPlace({
      reading: place,
      against: placedAgainst(readings, limits),
      tolerances,
      mmPerPx: mmPerPxOf(row, limits.scale),
      lightSpreadEv: against?.light?.spreadEv ?? 0,
      previous: said.inPlace ?? null,
    }),
    colour: judgeColour({
      reading: colour,
      source: exposed.source,
      isTarget: purpose === 'target',
      notYet: wantsTarget(readings, limits),
      tolerances,
      toleranceSet: limits.toleranceSet,
      lostPercent: exposed.saturatedPercent,
      drift: readings.drift?.frame === limits.counted?.frame ? readings.drift : null,
      delivered: readings.delivered?.hash === limits.balance?.hash ? (readings.delivered ?? null) : null,
      targetDelivered:
        limits.balance === null || limits.balance.frame !== limits.counted?.frame
          ? null
          : deliveredByItself(limits.balance),
      previous: said.colour ?? null,
    }),
  };
}

function placedAgainst({ place }: KeptReadings, limits: FrameLimits): InPlaceFacts['against'] {
  if (limits.isReference) return 'itself';
  if (limits.place === null) return 'nothing';
  return place.reference === limits.place.frame ? 'reference' : 'not-yet';
}
