import { expect, test } from 'vitest';
import type { HashSession } from './hash-session.ts';
import { ParkedHashes, parkedHashesMax } from './parked-hashes.ts';
import { fromOffset, openSimulatedHome, send, sha256, sized } from './testing/simulated-home.ts';

/** A session that only says whether it was ended. */
class Session implements HashSession {
  ended = false;
  async update(): Promise<void> {}
  async updateFromFile(): Promise<void> {}
  async digest(): Promise<string> {
    return '';
  }
  end(): void {
    this.ended = true;
  }
}

test('K9.3 a parked hash is given back once, and only for as many bytes as it has seen', () => {
  const parked = new ParkedHashes();
  const [one, other] = [new Session(), new Session()];
  parked.park('a', 10, one);
  parked.park('b', 10, other);
  expect(parked.take('a', 10)).toBe(one);
  expect(parked.take('a', 10)).toBeNull();
  expect(parked.take('b', 9)).toBeNull();
  expect([one.ended, other.ended]).toEqual([false, true]);
});

test('K9.3 as many as the bound are kept; one more ends the oldest', () => {
  const parked = new ParkedHashes();
  const sessions = Array.from({ length: parkedHashesMax + 1 }, () => new Session());
  for (const [number, session] of sessions.slice(0, -1).entries()) parked.park(`${number}`, 1, session);
  expect(sessions.filter(({ ended }) => ended)).toEqual([]);
  parked.park('last', 1, sessions[parkedHashesMax] ?? new Session());
  expect(sessions.map(({ ended }) => ended).indexOf(true)).toBe(0);
  expect(parked.take('last', 1)).not.toBeNull();
});

test('K9.3 a file resumed where it broke off is not read again, and after a start it is', async () => {
  const bytes = sized(300);
  for (const restarted of [false, true]) {
    const before = await openSimulatedHome();
    await send(before.keep, '/X.DNG', bytes.subarray(0, 120));
    const { keep, disk } = restarted ? await openSimulatedHome(before.disk.afterKill()) : before;
    const from = disk.steps.length;
    const outcome = await send(keep, '/X.DNG', bytes.subarray(120), 'closed', fromOffset(120));
    expect(outcome).toMatchObject({ kind: 'kept', sizeBytes: 300 });
    const reads = disk.steps.slice(from).filter((step) => /^read .*incoming/.test(step)).length;
    expect(reads > 0).toBe(restarted);
    const [kept] = disk.files().filter((path) => path.endsWith('/X.DNG'));
    expect(sha256(disk.bytesOf(kept ?? '') ?? new Uint8Array(0))).toBe(sha256(bytes));
    expect((await keep.folderOf('cam1').stat('/X.DNG'))?.sizeBytes).toBe(300);
  }
});
