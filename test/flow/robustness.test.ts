import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasShared, sharedPath } from '../shared.ts';
import { FtpTalk } from './ftp-talk.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/**
 * Pictures that others broke (their origins stand in the folder's SOURCES.md), through the whole station as from a
 * camera: received, looked at while they arrive, kept, read, developed, judged, and shown as far as they can be.
 */
const folder = 'reference/robustness';
const names = hasShared()
  ? readdirSync(sharedPath(folder)).filter((name) => !/\.(md|json|txt)$/.test(name))
  : [];
/** What the station may take at most, workers and all. */
const memoryBytesMax = 500_000_000;

describe.skipIf(!hasShared())('the pictures that others broke', () => {
  let station: RunningStation;

  beforeAll(async () => {
    station = await startStation(await newHome());
  });
  afterAll(async () => {
    await station.stop();
    await removeHome(station.home);
  });

  test('each is kept byte for byte or refused as cut, all are judged, and the station lives on little memory', async () => {
    expect(names.length).toBeGreaterThan(50);
    const talk = await FtpTalk.logIn(station);
    const kept: string[] = [];
    for (const name of names) {
      const reply = await talk.store(name, readFileSync(sharedPath(`${folder}/${name}`)));
      expect(reply, name).toMatch(/^(226|451) /);
      if (reply.startsWith('226')) kept.push(name);
    }
    // Proved to be cut the first time, kept as damaged the second: then that is what the camera has.
    for (const name of names.filter((each) => !kept.includes(each))) {
      expect(await talk.store(name, readFileSync(sharedPath(`${folder}/${name}`))), name).toMatch(/^226 /);
    }
    expect(await talk.ask('NOOP')).toMatch(/^200 /);
    talk.close();

    const frames = await eventually(
      'every frame is shown, or it is said why it cannot be',
      async () => {
        const all = await station.frames();
        const files = all.flatMap((frame) => frame.files);
        const done = all.every(({ picture }) => picture.state === 'rendered' || picture.state === 'cannot');
        return files.length >= names.length && done ? all : null;
      },
      180_000,
    );
    const hashes = new Set(frames.flatMap(({ files }) => files.map(({ sha256 }) => sha256)));
    for (const name of names) {
      const bytes = readFileSync(sharedPath(`${folder}/${name}`));
      expect(hashes.has(createHash('sha256').update(bytes).digest('hex')), name).toBe(true);
    }
    for (const frame of frames) {
      for (const kind of ['first-view', 'picture']) {
        const answer = await fetch(`${station.ready.web}/api/v1/frames/${frame.id}/${kind}`);
        await answer.arrayBuffer();
        expect(answer.status, `${frame.name} ${kind}`).toBeLessThan(500);
      }
    }
    expect(station.process.exitCode).toBeNull();
    if (process.platform === 'linux') {
      expect(await peakBytes(station.process.pid ?? 0)).toBeLessThan(memoryBytesMax);
    }
  }, 240_000);
});

/** The most memory a process has had, its threads included: VmHWM of proc(5). */
async function peakBytes(pid: number): Promise<number> {
  const status = await readFile(`/proc/${pid}/status`, 'utf8');
  return Number(/^VmHWM:\s+(\d+) kB$/m.exec(status)?.[1]) * 1024;
}
