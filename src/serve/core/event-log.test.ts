import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { StationEvent } from '../../contract/index.ts';
import { sampleFrame, sampleStation } from '../testing/sample-frame.ts';
import { parseEventId } from './event-id.ts';
import { createEventLog, type EventLog } from './event-log.ts';

const frameEvent = (id: string): StationEvent => ({
  type: 'frame',
  change: 'kept',
  frame: sampleFrame({ id }),
});
const progress = (id: string, version: number): StationEvent => ({
  type: 'arrival',
  change: 'progress',
  frame: sampleFrame({ id, version }),
});
const eventBytes = 3000;
const sequences = (log: EventLog, place: number, bytesMax = Number.POSITIVE_INFINITY): number[] | null =>
  log.after(place, bytesMax)?.map((event) => event.sequence) ?? null;

test('events come back in order from behind any place that is remembered', () => {
  const log = createEventLog({ run: 'r1' });
  for (const id of ['a', 'b', 'c']) log.publish(frameEvent(id));
  expect(sequences(log, 0)).toEqual([1, 2, 3]);
  expect(sequences(log, 2)).toEqual([3]);
  expect(sequences(log, 3)).toEqual([]);
  expect(log.newest).toBe(3);
});

test('the count is bounded: the oldest goes, and its place is no longer remembered', () => {
  const log = createEventLog({ run: 'r1', eventsMax: 3 });
  for (const id of ['a', 'b', 'c']) log.publish(frameEvent(id));
  expect(log.placeOf('r1-0')).toBe(0);
  log.publish(frameEvent('d'));
  expect(log.placeOf('r1-0')).toBeNull();
  expect(sequences(log, 0)).toBeNull();
  expect(log.placeOf('r1-1')).toBe(1);
  expect(sequences(log, 1)).toEqual([2, 3, 4]);
});

test('the bytes are bounded, and the newest event stays however large it is', () => {
  const log = createEventLog({ run: 'r1', bytesMax: eventBytes });
  log.publish(frameEvent('a'));
  log.publish(frameEvent('x'.repeat(eventBytes)));
  expect(sequences(log, 1)).toEqual([2]);
  expect(log.placeOf('r1-0')).toBeNull();
  log.publish(frameEvent('b'));
  expect(sequences(log, 2)).toEqual([3]);
  expect(log.placeOf('r1-1')).toBeNull();
});

test('ids of another run, from the future, or of another form stand for no place', () => {
  const log = createEventLog({ run: 'r2' });
  log.publish(frameEvent('a'));
  for (const id of [
    'r1-1',
    'r2-2',
    'r2',
    '',
    'r2-',
    'r2--1',
    'r2-01',
    'r2-1e3',
    '1',
    'r2-9007199254740993',
    ' r2-1',
  ]) {
    expect(log.placeOf(id), id).toBeNull();
  }
  expect(log.placeOf('r2-1')).toBe(1);
});

test('of one frame’s progress only the newest is kept, and nobody loses anything by it', () => {
  const log = createEventLog({ run: 'r1' });
  log.publish(progress('a', 1));
  log.publish(progress('b', 1));
  log.publish(progress('a', 2));
  expect(sequences(log, 0)).toEqual([2, 3]);
  expect(sequences(log, 1)).toEqual([2, 3]);
  expect(log.placeOf('r1-1')).toBe(1);
});

test('progress that was replaced takes no room: what came before it stays remembered', () => {
  const log = createEventLog({ run: 'r1', bytesMax: 3 * eventBytes });
  log.publish(frameEvent('a'));
  for (let version = 1; version <= 100; version += 1) log.publish(progress('b', version));
  expect(log.placeOf('r1-0')).toBe(0);
  expect(sequences(log, 0)).toEqual([1, 101]);
});

test('news of a frame that is not progress is never coalesced', () => {
  const log = createEventLog({ run: 'r1' });
  log.publish({ ...progress('a', 1), type: 'arrival', change: 'started' } as StationEvent);
  log.publish({ ...progress('a', 2), type: 'arrival', change: 'first-view' } as StationEvent);
  log.publish(frameEvent('a'));
  expect(sequences(log, 0)).toEqual([1, 2, 3]);
});

test('of the whole station only the newest news is kept', () => {
  const log = createEventLog({ run: 'r1' });
  log.publish({ type: 'line', station: sampleStation(true) });
  log.publish({ type: 'line', station: sampleStation(true) });
  expect(sequences(log, 0)).toEqual([2]);
});

test('a piece holds no more bytes than asked for, but always one event', () => {
  const log = createEventLog({ run: 'r1' });
  for (const id of ['a', 'b', 'c']) log.publish(frameEvent(id));
  const [first, second] = log.after(0, Number.POSITIVE_INFINITY) ?? [];
  const twoBytes = (first?.block.length ?? 0) + (second?.block.length ?? 0);
  expect(sequences(log, 0, 0)).toEqual([1]);
  expect(sequences(log, 0, twoBytes - 1)).toEqual([1]);
  expect(sequences(log, 0, twoBytes)).toEqual([1, 2]);
});

test('listeners are woken after the event is there, until they let go', () => {
  const log = createEventLog({ run: 'r1' });
  const seen: number[] = [];
  const letGo = log.subscribe(() => seen.push(log.newest));
  log.publish(frameEvent('a'));
  log.publish(frameEvent('b'));
  letGo();
  log.publish(frameEvent('c'));
  expect(seen).toEqual([1, 2]);
});

test('whatever is published, a client that follows place by place ends with the newest of every frame', () => {
  const steps = fc.array(
    fc.oneof(
      fc.record({ kind: fc.constant('progress' as const), id: fc.constantFrom('a', 'b') }),
      fc.record({ kind: fc.constant('frame' as const), id: fc.constantFrom('a', 'b') }),
      fc.record({ kind: fc.constant('read' as const), bytesMax: fc.nat(20_000) }),
    ),
    { maxLength: 60 },
  );
  fc.assert(
    fc.property(steps, (list) => {
      const log = createEventLog({ run: 'r1', eventsMax: 100 });
      const truth = new Map<string, number>();
      const seen = new Map<string, number>();
      let place = 0;
      const read = (bytesMax: number): void => {
        for (const event of log.after(place, bytesMax) ?? []) {
          expect(event.sequence).toBeGreaterThan(place);
          place = event.sequence;
          const data = JSON.parse(/^data: (.*)$/m.exec(new TextDecoder().decode(event.block))?.[1] ?? '');
          seen.set(data.frame.id, data.frame.version);
        }
      };
      list.forEach((step, version) => {
        if (step.kind === 'read') {
          read(step.bytesMax);
          return;
        }
        truth.set(step.id, version);
        if (step.kind === 'progress') log.publish(progress(step.id, version));
        else log.publish({ type: 'frame', change: 'kept', frame: sampleFrame({ id: step.id, version }) });
      });
      read(Number.POSITIVE_INFINITY);
      expect(seen).toEqual(truth);
      expect(place).toBe(log.newest);
    }),
  );
});

test('a run that could not stand in an id is a programmer’s mistake', () => {
  for (const run of ['', 'A', 'a-b', 'x'.repeat(33), 'a\n']) {
    expect(() => createEventLog({ run }), run).toThrow(RangeError);
  }
  expect(parseEventId(`${'x'.repeat(32)}-0`)).toEqual({ run: 'x'.repeat(32), sequence: 0 });
});
