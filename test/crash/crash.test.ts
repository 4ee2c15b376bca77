import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { renderFrame } from '../../src/stand-in/index.ts';
import { runProgram } from '../flow/clients.ts';
import { newHome, type RunningStation, removeHome, startStation } from '../flow/running-station.ts';
import { foldAndKill } from './fold-and-kill.ts';
import { lookInto } from './home-facts.ts';
import { ftpSender, type Sender, sftpSender } from './senders.ts';
import { type Chance, chanceFrom, type Ledger, newLedger, uploadUntilGone } from './uploads.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');

/** `npm run test:crash -- --rounds N [--seed S]` says otherwise. */
const rounds = Number(process.env.SETSIDE_CRASH_ROUNDS ?? (process.env.CI === 'true' ? 50 : 10));
const seed = Number(process.env.SETSIDE_CRASH_SEED ?? 1);
/** A home is looked into and left after so many: one of a thousand broken starts takes longer to open than to kill. */
const roundsOfHome = 100;
const homes = Array.from({ length: Math.ceil(rounds / roundsOfHome) }, (_, index) => ({
  count: Math.min(roundsOfHome, rounds - index * roundsOfHome),
  seedOfHome: seed + index,
}));
/** The cameras that upload at once, each by a door of its own. */
const doors: readonly ((station: RunningStation) => Promise<Sender>)[] = [
  (running) => ftpSender(running, 'ftp'),
  (running) => ftpSender(running, 'ftps'),
  sftpSender,
];

let home: string;
let station: RunningStation | null = null;

beforeEach(async () => {
  home = await newHome();
});

afterEach(async () => {
  await station?.kill();
  await removeHome(home);
});

/** Often with files on their way at every stage, whatever the machine's speed, and now and then right after the start. */
async function randomMoment(ledger: Ledger, chance: Chance): Promise<void> {
  const before = ledger.acknowledgedHashes.size;
  const isEarly = chance() < 0.2;
  const deadline = Date.now() + (isEarly ? 300 * chance() : 5000);
  while (ledger.acknowledgedHashes.size === before && Date.now() < deadline) await pause(5);
  if (!isEarly) await pause(900 * chance());
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** `src/keep/SPEC.md`, K1.2: what was acknowledged survives `kill -9`; K2.12: and so does every byte of what broke off. */
test.each(homes)(
  '$count rounds of kill -9 at random moments of real uploads, by seed $seedOfHome, lose nothing that was acknowledged',
  {
    timeout: 60_000 + roundsOfHome * 20_000,
  },
  async ({ count, seedOfHome }) => {
    const raw = (await renderFrame({ sizeMegapixels: 0.3, noiseSeed: 7 })).bytes;
    const chance = chanceFrom(seedOfHome);
    const ledger = newLedger();
    for (let round = 1; round <= count; round++) {
      // A third of the times something is folded in between, and killed in the middle of it.
      if (round % 3 === 0) await foldAndKill(home, chance);
      const running = await startStation(home);
      station = running;
      const uploads = doors.map((open, n) =>
        uploadUntilGone(() => open(running), `CAM${n}`, raw, ledger, chance),
      );
      await randomMoment(ledger, chance);
      await running.kill();
      await Promise.all(uploads);
    }
    expect(ledger.acknowledged.size, 'something was uploaded at all').toBeGreaterThan(count);

    const facts = await lookInto(home);
    const hashes = [...facts.originals.values()];
    const kept = new Set(hashes);
    const lost = [...ledger.acknowledgedHashes].filter((hash) => !kept.has(hash));
    expect(lost, 'acknowledged and not among the originals').toEqual([]);
    // Of a plain file nobody can tell that it was cut, where a client that gave up closed in order: it is kept as unknown.
    const raws = [...facts.originals].filter(([path]) => path.endsWith('.DNG'));
    const halves = raws.flatMap(([path, hash]) => (ledger.sent.has(hash) ? [] : [path]));
    expect(halves, 'among the originals and never sent whole').toEqual([]);
    expect(facts.unlisted, 'in the home and listed nowhere').toEqual([]);
    expect(facts.unheld, 'came, and held by no file any more').toEqual([]);

    for (const more of [[], ['--rebuild']]) {
      const run = await runProgram(process.execPath, [binary, 'verify', '--home', home, ...more], {
        timeoutMs: 300_000,
      });
      expect(run.code, `${run.stdout}${run.stderr}`).toBe(0);
    }
    process.stderr.write(
      `kill -9: ${count} rounds by seed ${seedOfHome}, ${ledger.acknowledgedHashes.size} acknowledged files, ${lost.length} lost, ${hashes.length} originals, ${facts.folded} attempts folded\n`,
    );
  },
);
