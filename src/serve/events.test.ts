import type { Socket } from 'node:net';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { afterEach, expect, test, vi } from 'vitest';
import { type StationEvent, stationEvent } from '../contract/index.ts';
import { beatsWithoutReadingMax } from './event-stream.ts';
import { heartBeatMs } from './event-streams.ts';
import { type EventClient, openDeafClient, openEventClient } from './testing/event-client.ts';
import { sampleFrame, sampleRemark } from './testing/sample-frame.ts';
import { openWebBench, type WebBench } from './testing/web-bench.ts';

const open: { bench?: WebBench; clients: EventClient[]; sockets: Socket[] } = { clients: [], sockets: [] };

afterEach(async () => {
  for (const client of open.clients.splice(0)) client.leave();
  for (const socket of open.sockets.splice(0)) socket.destroy();
  await open.bench?.close();
});

/** A listening application with a heart-beat turned by hand. */
async function listen(
  options: Parameters<typeof openWebBench>[0] = {},
  events: Parameters<typeof openWebBench>[1] = {},
): Promise<{ bench: WebBench; port: number; beat: () => void; beatEveryMs: () => number }> {
  let beat = (): void => {};
  let everyMs = 0;
  const startBeat = (ms: number, run: () => void): (() => void) => {
    everyMs = ms;
    beat = run;
    return () => {};
  };
  const bench = await openWebBench({ startBeat, ...options }, events);
  open.bench = bench;
  const port = Number(new URL(await bench.app.listen({ port: 0, host: '127.0.0.1' })).port);
  return { bench, port, beat: () => beat(), beatEveryMs: () => everyMs };
}

async function join(port: number, lastEventId?: string, query?: string): Promise<EventClient> {
  const client = await openEventClient(port, lastEventId, query);
  open.clients.push(client);
  await vi.waitFor(() => expect(client.reader.retryMs).not.toBeNull(), 30_000);
  return client;
}

const kept = (id: string, text = ''): StationEvent => ({
  type: 'frame',
  change: 'kept',
  frame: sampleFrame({ id, remarks: [sampleRemark({ text })] }),
});
const seenIds = (client: EventClient): string[] =>
  client.reader.events.map((event) =>
    event.type === 'frame' ? JSON.parse(event.data).frame.id : event.type,
  );

test('a client gets each event as it happens, named after its type, with data after the contract', async () => {
  const { bench, port } = await listen();
  const client = await join(port);
  expect(client.answer.statusCode).toBe(200);
  expect(client.answer.headers).toMatchObject({
    'content-type': 'text/event-stream',
    'cache-control': 'no-store',
    'x-content-type-options': 'nosniff',
  });
  bench.desk.events.publish(kept('a'));
  bench.desk.events.publish({ type: 'arrival', change: 'started', frame: sampleFrame({ id: 'b' }) });
  await vi.waitFor(() => expect(client.reader.events).toHaveLength(2), 30_000);
  expect(client.reader.events.map(({ type, lastEventId }) => [type, lastEventId])).toEqual([
    ['frame', 'run1-1'],
    ['arrival', 'run1-2'],
  ]);
  for (const event of client.reader.events) stationEvent.parse(JSON.parse(event.data));
});

test('a new client gets nothing of before, and can resume even if the line breaks before the first event', async () => {
  const { bench, port } = await listen();
  bench.desk.events.publish(kept('before'));
  const client = await join(port);
  await vi.waitFor(() => expect(client.reader.lastEventId).toBe('run1-1'), 30_000);
  client.leave();
  bench.desk.events.publish(kept('missed'));
  const again = await join(port, client.reader.lastEventId);
  await vi.waitFor(() => expect(seenIds(again)).toEqual(['missed']), 30_000);
  expect(client.reader.events).toEqual([]);
});

test('a client that comes back gets exactly what it missed, then goes on', async () => {
  const { bench, port } = await listen();
  for (const id of ['a', 'b', 'c']) bench.desk.events.publish(kept(id));
  const client = await join(port, 'run1-1');
  bench.desk.events.publish(kept('d'));
  await vi.waitFor(() => expect(seenIds(client)).toEqual(['b', 'c', 'd']), 30_000);
});

test('the header goes before the address, which a browser keeps from its first visit', async () => {
  const { bench, port } = await listen();
  for (const id of ['a', 'b', 'c']) bench.desk.events.publish(kept(id));
  const byAddress = await join(port, undefined, '?last-event-id=run1-1');
  await vi.waitFor(() => expect(seenIds(byAddress)).toEqual(['b', 'c']), 30_000);
  const byBoth = await join(port, 'run1-2', '?last-event-id=run1-1');
  await vi.waitFor(() => expect(seenIds(byBoth)).toEqual(['c']), 30_000);
});

test('a gap longer than remembered, an id of an earlier run and an id that is none say resync, then go on', async () => {
  const { bench, port } = await listen({}, { eventsMax: 2 });
  for (const id of ['a', 'b', 'c']) bench.desk.events.publish(kept(id));
  const clients = [];
  for (const id of ['run1-0', 'run0-3', 'run1-99', 'nonsense', 'x'.repeat(8000)])
    clients.push(await join(port, id));
  bench.desk.events.publish(kept('d'));
  for (const client of clients) {
    await vi.waitFor(() => expect(seenIds(client)).toEqual(['resync', 'd']), 30_000);
    expect(client.reader.events[0]).toEqual({
      type: 'resync',
      data: '{"type":"resync"}',
      lastEventId: 'run1-3',
    });
  }
  const remembered = await join(port, 'run1-2');
  await vi.waitFor(() => expect(seenIds(remembered)).toEqual(['c', 'd']), 30_000);
});

test('a long backlog comes whole and in order, over many pieces', async () => {
  const { bench, port } = await listen();
  const ids = Array.from({ length: 400 }, (_, n) => `f${n}`);
  for (const id of ids) bench.desk.events.publish(kept(id, 'x'.repeat(2000)));
  const client = await join(port, 'run1-0');
  await vi.waitFor(() => expect(client.reader.events).toHaveLength(400), { timeout: 30_000 });
  expect(seenIds(client)).toEqual(ids);
});

test('the heart-beat is a comment every 15 s and no event', async () => {
  const { port, beat, beatEveryMs } = await listen();
  expect(beatEveryMs()).toBe(15_000);
  expect(heartBeatMs).toBe(15_000);
  const client = await join(port);
  beat();
  await vi.waitFor(() => expect(client.reader.comments).toEqual([' beat']), 30_000);
  expect(client.reader.events).toEqual([]);
});

/** Publishes large events until a condition holds: the system's socket buffers take some megabytes first. */
async function publishUntil(bench: WebBench, condition: () => boolean): Promise<void> {
  const text = 'x'.repeat(512 * 1024);
  for (let n = 0; n < 400 && !condition(); n += 1) {
    bench.desk.events.publish(kept(`big${n}`, text));
    await nextTurn();
  }
  expect(condition()).toBe(true);
}

const dropped = (bench: WebBench): unknown[] =>
  bench.log.filter((entry) => entry.event === 'stream-dropped').map((entry) => entry.details.reason);

test('a client that does not read is dropped when it falls behind what is remembered; others miss nothing', async () => {
  const { bench, port } = await listen({}, { bytesMax: 4 * 1024 * 1024 });
  const deaf = await openDeafClient(port);
  open.sockets.push(deaf);
  const good = await join(port);
  await publishUntil(bench, () => dropped(bench).length > 0);
  expect(dropped(bench)).toEqual(['fell-behind']);
  bench.desk.events.publish(kept('last'));
  await vi.waitFor(() => expect(seenIds(good).at(-1)).toBe('last'), { timeout: 30_000 });
  expect(seenIds(good).filter((id) => id === 'resync')).toEqual([]);
  expect(good.reader.events).toHaveLength(bench.desk.events.newest);
});

test('a client that takes nothing for a minute of heart-beats is dropped, one that reads is not', async () => {
  const { bench, port, beat } = await listen();
  const deaf = await openDeafClient(port);
  open.sockets.push(deaf);
  const good = await join(port);
  // One event larger than all socket buffers of the system, so that the deaf client's line is full at once.
  bench.desk.events.publish(kept('huge', 'x'.repeat(32 * 1024 * 1024)));
  await vi.waitFor(() => expect(good.reader.events).toHaveLength(1), { timeout: 30_000 });
  for (let n = 1; n < beatsWithoutReadingMax; n += 1) beat();
  expect(dropped(bench)).toEqual([]);
  beat();
  expect(dropped(bench)).toEqual(['took-nothing']);
  expect(good.isOver()).toBe(false);
  bench.desk.events.publish(kept('after'));
  await vi.waitFor(() => expect(seenIds(good)).toEqual(['huge', 'after']), 30_000);
});

test('no more streams are opened than allowed, and one that is closed makes room', async () => {
  const { bench, port } = await listen({ streamsMax: 2 });
  const first = await join(port);
  await join(port);
  const refused = await fetch(`http://127.0.0.1:${port}/api/v1/events`);
  expect(refused.status).toBe(503);
  expect(refused.headers.get('content-type')).toBe('application/problem+json');
  expect(await refused.json()).toMatchObject({ code: 'too-many-streams' });
  first.leave();
  await vi.waitFor(async () => {
    const third = await openEventClient(port);
    open.clients.push(third);
    expect(third.answer.statusCode).toBe(200);
  }, 30_000);
  expect(bench.desk.events.newest).toBe(0);
});

test('closing ends every stream in order, so that clients come back by themselves', async () => {
  const { bench, port } = await listen();
  const clients = [await join(port), await join(port)];
  await bench.app.close();
  for (const client of clients) {
    await vi.waitFor(() => expect(client.isOver()).toBe(true), 30_000);
    expect(client.answer.complete).toBe(true);
  }
});
