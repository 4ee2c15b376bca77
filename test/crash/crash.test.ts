import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { renderFrame } from '../../src/stand-in/index.ts';
import { runProgram } from '../flow/clients.ts';
import { newHome, type RunningStation, removeHome, startStation } from '../flow/running-station.ts';
import { lookInto } from './home-facts.ts';
import { chanceFrom, newLedger, uploadUntilGone } from './uploads.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');

/** `npm run test:crash -- --rounds N [--seed S]` says otherwise. */
const rounds = Number(process.env.SETSIDE_CRASH_ROUNDS ?? (process.env.CI === 'true' ? 50 : 10));
const seed = Number(process.env.SETSIDE_CRASH_SEED ?? 1);
/** How many cameras upload at once. */
const cameras = 3;

let home: string;
let station: RunningStation | null = null;

beforeEach(async () => {
  home = await newHome();
});

afterEach(async () => {
  await station?.kill();
  await removeHome(home);
});

/** Architecture, invariants: what was acknowledged survives `kill -9`; issue 4, never lose. */
test(`${rounds} rounds of kill -9 at random moments of real uploads lose nothing that was acknowledged`, {
  timeout: 60_000 + rounds * 20_000,
}, async () => {
  const raw = (await renderFrame({ sizeMegapixels: 0.3, noiseSeed: 7 })).bytes;
  const chance = chanceFrom(seed);
  const ledger = newLedger();
  for (let round = 1; round <= rounds; round++) {
    const running = await startStation(home);
    station = running;
    const uploads = Array.from({ length: cameras }, (_, n) =>
      uploadUntilGone(running, `CAM${n}`, raw, ledger, chance),
    );
    await new Promise((resolve) => setTimeout(resolve, 50 + chance() * 900));
    await running.kill();
    await Promise.all(uploads);
  }
  expect(ledger.acknowledged.size, 'something was uploaded at all').toBeGreaterThan(rounds);

  const facts = await lookInto(home);
  const hashes = [...facts.originals.values()];
  const kept = new Set(hashes);
  const lost = [...ledger.acknowledgedHashes].filter((hash) => !kept.has(hash));
  expect(lost, 'acknowledged and not among the originals').toEqual([]);
  const halves = [...facts.originals].filter(([, hash]) => !ledger.sent.has(hash));
  expect(halves, 'among the originals and never sent whole').toEqual([]);
  expect(facts.unlisted, 'in the home and listed nowhere').toEqual([]);

  for (const more of [[], ['--rebuild']]) {
    const run = await runProgram(process.execPath, [binary, 'verify', '--home', home, ...more], {
      timeoutMs: 300_000,
    });
    expect(run.code, `${run.stdout}${run.stderr}`).toBe(0);
  }
  process.stderr.write(
    `kill -9: ${rounds} rounds, ${ledger.acknowledgedHashes.size} acknowledged files, ${lost.length} lost, ${hashes.length} originals\n`,
  );
});
