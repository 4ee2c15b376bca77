import { type StationEvent, stationEvent } from '../../contract/index.ts';

/** The event names of `GET /api/v1/events`. */
export const eventNames = [
  'arrival',
  'frame',
  'copy',
  'line',
  'job',
  'agreements',
  'client',
  'look',
  'delivery',
  'papers',
  'card',
  'bag',
  'verification',
  'resync',
  'shut-out',
] as const;

/** The event in a message, or null for one that this page does not understand: then everything is loaded again. */
export function eventIn(data: unknown): StationEvent | null {
  try {
    const result = stationEvent.safeParse(JSON.parse(String(data)));
    return result.success ? result.data : null;
  } catch {
    return null;
  }
}

/** Whether it tells of deliveries, cards, packages or readings of everything. */
export function isOfHandOver({ type }: StationEvent): boolean {
  return handOverEvents.has(type);
}

const handOverEvents: ReadonlySet<string> = new Set(['delivery', 'card', 'bag', 'verification']);

/** Whether somebody chose something by it: then there may be more, or less, to take back. */
export function mayBeTakenBack(event: StationEvent): boolean {
  return (
    event.type === 'job' ||
    event.type === 'agreements' ||
    event.type === 'look' ||
    (event.type === 'frame' && chosenChanges.has(event.change))
  );
}

/** Changes that people make of a frame. */
const chosenChanges: ReadonlySet<string> = new Set(['marked', 'moved', 'chosen', 'shared', 'remarked']);
