import { expect, test } from 'vitest';
import { SharedQueue } from './shared-queue.ts';

/** Work that ends when it is told to. */
class Work {
  readonly begun: string[] = [];
  readonly #ends = new Map<string, (outcome: string) => void>();

  of(name: string): () => Promise<string> {
    return () => {
      this.begun.push(name);
      return new Promise((resolve) => this.#ends.set(name, resolve));
    };
  }

  async end(name: string): Promise<void> {
    this.#ends.get(name)?.(name);
    await turns();
  }
}

const never = new AbortController().signal;

/** Lets everything that is due in this turn of the loop happen. */
function turns(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve));
}

test('pieces run as many at a time as there are lanes, in the order they were asked for', async () => {
  const work = new Work();
  const queue = new SharedQueue<string>({ lanes: 2, waitingMax: 9 });
  const outcomes = ['a', 'b', 'c'].map((name) => queue.run(name, work.of(name), never));
  await turns();
  expect(work.begun).toEqual(['a', 'b']);
  await work.end('b');
  expect(work.begun).toEqual(['a', 'b', 'c']);
  await work.end('a');
  await work.end('c');
  expect(await Promise.all(outcomes)).toEqual(['a', 'b', 'c']);
});

test('what two ask for is made once, and one of them may leave', async () => {
  const work = new Work();
  const queue = new SharedQueue<string>({ lanes: 1, waitingMax: 9 });
  const leaving = new AbortController();
  const first = queue.run('a', work.of('a'), leaving.signal);
  const second = queue.run('a', work.of('a'), never);
  leaving.abort(new Error('gone'));
  await expect(first).rejects.toThrow('gone');
  await turns();
  expect(work.begun).toEqual(['a']);
  await work.end('a');
  expect(await second).toBe('a');
});

test('what nobody waits for any longer is not begun; what has begun is finished', async () => {
  const work = new Work();
  const queue = new SharedQueue<string>({ lanes: 1, waitingMax: 9 });
  const leaving = new AbortController();
  const running = queue.run('a', work.of('a'), leaving.signal);
  const waiting = queue.run('b', work.of('b'), leaving.signal);
  const last = queue.run('c', work.of('c'), never);
  await turns();
  leaving.abort(new Error('gone'));
  await expect(running).rejects.toThrow('gone');
  await expect(waiting).rejects.toThrow('gone');
  await work.end('a');
  await work.end('c');
  expect(await last).toBe('c');
  expect(work.begun).toEqual(['a', 'c']);
});

test('as many wait as may; the next one is told that the queue is busy', async () => {
  const work = new Work();
  const queue = new SharedQueue<string>({ lanes: 1, waitingMax: 2 });
  const names = ['a', 'b', 'c'];
  void queue.run('a', work.of('a'), never);
  await turns();
  const waiting = ['b', 'c'].map((name) => queue.run(name, work.of(name), never));
  await expect(queue.run('d', work.of('d'), never)).rejects.toMatchObject({ code: 'busy', retryable: true });
  // Asking for what waits already needs no place.
  waiting.push(queue.run('c', work.of('c'), never));
  for (const name of names) await work.end(name);
  expect(await Promise.all(waiting)).toEqual(['b', 'c', 'c']);
});

test('a failure is told to all who asked, and the next piece runs', async () => {
  const queue = new SharedQueue<string>({ lanes: 1, waitingMax: 9 });
  const failing = () => Promise.reject(new Error('broken'));
  const both = [queue.run('a', failing, never), queue.run('a', failing, never)];
  const next = queue.run('b', () => Promise.resolve('b'), never);
  for (const one of both) await expect(one).rejects.toThrow('broken');
  expect(await next).toBe('b');
});

test('a wish taken back before it was made is refused at once', async () => {
  const queue = new SharedQueue<string>({ lanes: 1, waitingMax: 9 });
  await expect(
    queue.run('a', () => Promise.resolve('a'), AbortSignal.abort(new Error('gone'))),
  ).rejects.toThrow('gone');
  expect(queue.waiting).toBe(0);
});
