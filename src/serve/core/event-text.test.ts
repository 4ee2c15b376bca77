import { expect, test } from 'vitest';
import { EventSourceReader } from '../testing/event-source.ts';
import { eventText, heartBeatText, openingText } from './event-text.ts';

test('the reader used in these tests reads the examples of WHATWG HTML section 9.2.6 as told there', () => {
  const first = new EventSourceReader();
  first.feed('data: YHOO\ndata: +2\ndata: 10\n\n');
  expect(first.events.map((event) => event.data)).toEqual(['YHOO\n+2\n10']);

  const second = new EventSourceReader();
  second.feed(': test stream\n\ndata: first event\nid: 1\n\ndata:second event\nid\n\ndata:  third event\n\n');
  expect(second.events.map(({ data, lastEventId }) => [data, lastEventId])).toEqual([
    ['first event', '1'],
    ['second event', ''],
    [' third event', ''],
  ]);
});

test('an event comes out of the standard’s algorithm as it went in, wherever the text is cut', () => {
  const text = eventText({ id: 'r-7', type: 'frame', data: '{"a":"ü: \\n"}\nsecond\r\nthird' });
  for (let cut = 0; cut <= text.length; cut += 1) {
    const reader = new EventSourceReader();
    reader.feed(text.slice(0, cut));
    reader.feed(text.slice(cut));
    expect(reader.events).toEqual([
      { type: 'frame', data: '{"a":"ü: \\n"}\nsecond\nthird', lastEventId: 'r-7' },
    ]);
  }
});

test('the opening dispatches nothing, sets the time to come back, and is remembered as the last id', () => {
  const reader = new EventSourceReader();
  reader.feed(openingText(2000, 'r-0'));
  expect(reader.events).toEqual([]);
  expect(reader.retryMs).toBe(2000);
  expect(reader.lastEventId).toBe('r-0');
});

test('a heart-beat is a comment and changes nothing', () => {
  const reader = new EventSourceReader();
  reader.feed(openingText(2000, 'r-3') + heartBeatText);
  expect(reader.comments).toEqual([' beat']);
  expect(reader.events).toEqual([]);
  expect(reader.lastEventId).toBe('r-3');
});
