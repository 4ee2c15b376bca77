/**
 * Ids of the event stream: `run-sequence`. The run differs between two starts of the station, so that an id from an
 * earlier run is never mistaken for one of this run, whatever its number.
 */
export interface EventId {
  readonly run: string;
  /** 0 before the first event, then rising by one. */
  readonly sequence: number;
}

/** 1 to 32 lower-case letters and digits: what a run may be called. */
export const runPattern: RegExp = /^[0-9a-z]{1,32}$/;

/** Text of an id, free of the characters that the event stream gives a meaning. */
export function eventIdText(id: EventId): string {
  return `${id.run}-${id.sequence}`;
}

/** The id in a `Last-Event-ID`, or null where it is not one of ours. */
export function parseEventId(text: string): EventId | null {
  const match = /^([0-9a-z]{1,32})-(0|[1-9]\d{0,15})$/.exec(text);
  const [, run, digits] = match ?? [];
  if (run === undefined || digits === undefined) return null;
  const sequence = Number(digits);
  return Number.isSafeInteger(sequence) ? { run, sequence } : null;
}
