import { expect, test } from 'vitest';
import { SendFailure } from './core/failure.ts';
import { defaultSendLimits } from './core/limits.ts';
import type { FileToSend, OpenPlace, SendWatch, Sent } from './open-place.ts';
import { Sender } from './sender.ts';

const file: FileToSend = { path: '/nowhere/a.tif', name: 'a.tif', bytes: 100, sha256: '0'.repeat(64) };
const sent: Sent = { where: 'there/a.tif', proof: 'read-back' };
const cut = (): SendFailure => new SendFailure('again', 'send.line-cut', { host: 'x' });
const taken = (): SendFailure => new SendFailure('file', 'send.name-taken', { name: 'a.tif' });
const wrong = (): SendFailure => new SendFailure('stop', 'send.log-in', {});

type Attempt = (watch: SendWatch) => Promise<Sent>;
const fails =
  (failure: () => SendFailure, ...reached: number[]): Attempt =>
  async ({ progress }) => {
    for (const bytes of reached) progress(bytes);
    throw failure();
  };
const goesWell: Attempt = async ({ progress }) => {
  progress(100);
  return sent;
};

/** A place whose attempts are given, the last one again and again; what was done with it, in order. */
function bench(...attempts: readonly Attempt[]) {
  const done: string[] = [];
  const pauses: number[] = [];
  const heard: number[] = [];
  const abort = new AbortController();
  let tried = 0;
  const place: OpenPlace = {
    send: (_file, watch) => {
      const attempt = attempts[Math.min(tried++, attempts.length - 1)];
      if (attempt === undefined) throw new Error('an attempt is given');
      return attempt(watch);
    },
    letGo: async (_file, token) => void done.push(`let go ${token}`),
    remove: async (name) => void done.push(`remove ${name}`),
    close: () => void done.push('close'),
  };
  const sender = new Sender({
    place: { kind: 'folder', path: '/nowhere' },
    secret: async () => 'the secret',
    below: [],
    limits: { ...defaultSendLimits, triesMax: 3, pauseMs: 10, pauseMsMax: 30 },
    open: async ({ secret }) => {
      done.push(`open with ${secret}`);
      return place;
    },
    wait: async (ms) => void pauses.push(ms),
    onTrouble: (finding) => void done.push(finding === null ? 'goes on' : finding.code),
  });
  const watch: SendWatch = {
    signal: abort.signal,
    progress: (bytes) => void heard.push(bytes),
    token: () => null,
    keepToken: async () => {},
  };
  return { sender, send: () => sender.send(file, watch), done, pauses, heard, abort };
}

test('a connection is kept between files, and closed once', async () => {
  const { sender, send, done, heard } = bench(goesWell);
  expect(await send()).toBe(sent);
  expect(await send()).toBe(sent);
  sender.close();
  sender.close();
  expect(done).toEqual(['open with the secret', 'close']);
  expect(heard).toEqual([100, 100]);
});

test('a line that is cut is opened anew after a pause, which grows; that it goes on again is said', async () => {
  const { send, done, pauses } = bench(fails(cut), fails(cut), goesWell);
  expect(await send()).toBe(sent);
  const again = ['close', 'send.line-cut', 'open with the secret'];
  expect(done).toEqual(['open with the secret', ...again, ...again, 'goes on']);
  expect(pauses).toEqual([10, 20]);
});

test('attempts that bring nothing end with the last one’s reason', async () => {
  const { send, done, pauses } = bench(fails(cut));
  await expect(send()).rejects.toMatchObject({ finding: { code: 'send.line-cut' } });
  expect(done.filter((each) => each.startsWith('open'))).toHaveLength(3);
  expect(pauses).toEqual([10, 20]);
});

test('an attempt that brings the file further does not count, one that only comes as far does', async () => {
  const far = [10, 20, 30, 40, 50, 60].map((bytes) => fails(cut, bytes));
  const further = bench(...far, goesWell);
  expect(await further.send()).toBe(sent);
  expect(further.pauses).toEqual([10, 10, 10, 10, 10, 10]);
  const same = bench(fails(cut, 50));
  await expect(same.send()).rejects.toMatchObject({ finding: { code: 'send.line-cut' } });
  // The first one brought it to 50, and three after it brought nothing: one pause is of the first.
  expect(same.pauses).toEqual([10, 20]);
});

test('a file that is not to be sent leaves the connection open; what a person has to mend closes it; neither is tried again', async () => {
  const one = bench(fails(taken), goesWell);
  await expect(one.send()).rejects.toMatchObject({ next: 'file' });
  expect(await one.send()).toBe(sent);
  expect(one.done).toEqual(['open with the secret']);
  const other = bench(fails(wrong), goesWell);
  await expect(other.send()).rejects.toMatchObject({ next: 'stop' });
  expect(other.done).toEqual(['open with the secret', 'close']);
  expect([...one.pauses, ...other.pauses]).toEqual([]);
});

test('a failure that is none of ours is not tried again', async () => {
  const { send, done } = bench(async () => {
    throw new TypeError('a bug');
  });
  await expect(send()).rejects.toThrow('a bug');
  expect(done).toEqual(['open with the secret', 'close']);
});

test('who ends it gets their own reason, before and in the middle of an attempt', async () => {
  const { send, done, abort } = bench(async () => {
    abort.abort(new Error('ended by somebody'));
    throw cut();
  });
  await expect(send()).rejects.toThrow('ended by somebody');
  expect(done).toEqual(['open with the secret']);
  await expect(send()).rejects.toThrow('ended by somebody');
  expect(done).toEqual(['open with the secret']);
});

test('what was begun is let go, and a file taken away, over a line that is opened for it', async () => {
  const { sender, done, abort } = bench(goesWell);
  await sender.letGo(file, 'token-1', abort.signal);
  await sender.remove('a.tif', abort.signal);
  expect(done).toEqual(['open with the secret', 'let go token-1', 'remove a.tif']);
});
