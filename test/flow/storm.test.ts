import { randomBytes } from 'node:crypto';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { cameraEntry } from '../../src/contract/index.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** How much one camera has still to send when the other one comes. */
const stormFiles = 24;
const lines = 4;

/** Issue 4, several cameras: one camera's storm does not starve another. */
describe.skipIf(!hasProgram('curl'))('one camera sends a card by four connections', () => {
  let home: string;
  let station: RunningStation;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
  });

  afterAll(async () => {
    await station.stop();
    await removeHome(home);
  });

  test('a frame of another camera goes through in between', async () => {
    const answer = await fetch(`${station.ready.web}/api/v1/cameras`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ name: 'overhead' }),
    });
    const other = cameraEntry.parse(await answer.json());
    const large = join(home, 'large.bin');
    const small = join(home, 'small.bin');
    await writeFile(large, randomBytes(15_000_000));
    await writeFile(small, randomBytes(2_000_000));
    let sent = 0;
    const line = async (n: number): Promise<void> => {
      for (let k = 0; k < stormFiles / lines; k++) {
        const done = await curlUpload(station, large, `/LINE${n}-${k}.BIN`);
        expect(done.code, done.stderr).toBe(0);
        sent += 1;
      }
    };
    const storm = Promise.all(Array.from({ length: lines }, (_, n) => line(n)));
    await eventually('the storm has begun', async () => sent > 0);
    const quiet = { ...station, user: other.user, password: other.password ?? '' };
    const done = await curlUpload(quiet, small, '/ONE.BIN');
    expect(done.code, done.stderr).toBe(0);
    expect(sent, 'the storm is far from its end').toBeLessThan(stormFiles - lines);
    await storm;
    expect(await station.frames()).toHaveLength(stormFiles + 1);
  });
});
