/**
 * What can be made to go wrong on purpose: one table for both halves of the stand-in. Faults of the `line` happen
 * between shutter and station (names, clock, upload), faults of the `picture` in front of the sensor. The sentence of
 * each is `stand-in.fault-NAME` in `words`.
 */
export const faultNames = [
  'cut',
  'duplicate',
  'clock',
  'wrap',
  'gap',
  'strobe',
  'shift',
  'soft',
  'shake',
  'tint',
  'exposure',
  'sensitivity',
  'white-balance',
] as const;
export type FaultName = (typeof faultNames)[number];

export type FaultHalf = 'line' | 'picture';

export interface FaultValue {
  /** As it is said: `%`, `min`, `px`, `EV`, `K`; empty where it is a bare count. */
  readonly unit: string;
  readonly from: number;
  readonly to: number;
  readonly default: number;
  /** Whether fractions make no sense. */
  readonly whole: boolean;
}

export interface FaultFacts {
  readonly half: FaultHalf;
  /** Null where there is nothing to measure out. */
  readonly value: FaultValue | null;
  /** Frames it happens on where none is named: every one, or one frame of the session (counted from 1). */
  readonly frames: 'each' | number;
}

const value = (unit: string, [from, to]: readonly [number, number], standard: number): FaultValue => {
  return { unit, from, to, default: standard, whole: unit === '' };
};

export const faultFacts: Readonly<Record<FaultName, FaultFacts>> = {
  /** Value: how much of the file has gone out when the line breaks. */
  cut: { half: 'line', value: value('%', [1, 99], 60), frames: 'each' },
  duplicate: { half: 'line', value: null, frames: 'each' },
  /** Value: how far the camera's clock is ahead; an hour is what a forgotten summer time does. */
  clock: { half: 'line', value: value('min', [-600_000, 600_000], 60), frames: 'each' },
  /** The frame is the one that becomes 0001; a counter wraps once. */
  wrap: { half: 'line', value: null, frames: 2 },
  /** Value: how many numbers are missing in front of the frame. */
  gap: { half: 'line', value: value('', [1, 9000], 1), frames: 'each' },
  strobe: { half: 'picture', value: null, frames: 'each' },
  /** Value: how far the subject has moved to the right, pixels of this frame. */
  shift: { half: 'picture', value: value('px', [-16, 16], 8), frames: 'each' },
  /** Value: standard deviation of the blur that is added. */
  soft: { half: 'picture', value: value('px', [0.2, 8], 2), frames: 'each' },
  /** Value: length of the movement. */
  shake: { half: 'picture', value: value('px', [1, 40], 8), frames: 'each' },
  /** Value: correlated colour temperature of the light, which is 6504 K when nothing is wrong. */
  tint: { half: 'picture', value: value('K', [2500, 12_000], 5000), frames: 'each' },
  /** Value: against the right exposure. */
  exposure: { half: 'picture', value: value('EV', [-6, 3], -1), frames: 'each' },
  /** Value: what the dial stands at, which is 100 when nothing is wrong. */
  sensitivity: { half: 'picture', value: value('', [25, 800], 200), frames: 'each' },
  'white-balance': { half: 'picture', value: null, frames: 'each' },
};

/** One fault of one frame. */
export interface Fault {
  readonly name: FaultName;
  /** In the fault's own unit, see {@link faultFacts}; null where it has none. */
  readonly value: number | null;
}

/** A fault as it was asked for. */
export interface FaultOrder extends Fault {
  /** Frames of the session, from 1; `each` for all. */
  readonly frames: 'each' | readonly number[];
}

/** The faults of the `frame`-th frame of a session, from 1. Of two orders for the same fault the later one counts. */
export function faultsAt(orders: readonly FaultOrder[], frame: number): Fault[] {
  const found = new Map<FaultName, Fault>();
  for (const { name, value, frames } of orders) {
    if (frames === 'each' || frames.includes(frame)) found.set(name, { name, value });
  }
  return [...found.values()];
}

/** What a fault of this frame measures, or undefined where the frame does not have it (a fault without value: 0). */
export function faultValue(faults: readonly Fault[], name: FaultName): number | undefined {
  const fault = faults.find((one) => one.name === name);
  return fault === undefined ? undefined : (fault.value ?? 0);
}
