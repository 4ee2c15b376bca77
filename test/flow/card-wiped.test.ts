import { existsSync, statSync } from 'node:fs';
import { mkdir, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type CardCheck, cardDesk, strike } from '../../src/contract/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { curlUpload, hasProgram, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** Three devices: the disk with the home, memory as the second place, and a file system of its own as the card. */
const shm = '/dev/shm';
const hasDevices =
  existsSync(shm) && statSync(shm).dev !== statSync(tmpdir()).dev && process.getuid?.() === 0;
const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const names = ['QMST0001.TXT', 'QMST0002.TXT'];

let home: string;
let place: string;
let card: string;
let station: RunningStation | null;
let browser: Browser | null;
beforeEach(async () => {
  [home, card] = await Promise.all([newHome(), newHome()]);
  place = await mkdtemp(join(hasDevices ? shm : tmpdir(), 'setside-place-'));
  station = null;
  browser = null;
  await writeFile(join(home, 'setside.json'), JSON.stringify({ memoryCounts: true }));
});
afterEach(async () => {
  await browser?.close();
  await station?.stop();
  await runProgram('umount', [card]);
  for (const each of [home, card]) await removeHome(each);
  await rm(place, { recursive: true, force: true });
});

async function launched(): Promise<Browser> {
  browser = await launchBrowser();
  return browser;
}

/** The command's answer: its exit code, whether every file is safe, their states, and whether a station was told. */
async function byCommand(): Promise<{ code: number | null; safe: boolean; states: string[]; told: string }> {
  const run = await runProgram(process.execPath, [binary, 'card', card, '--home', home, '--json']);
  const { safe, files, station: told } = JSON.parse(run.stdout);
  return { code: run.code, safe, states: files.map(({ state }: { state: string }) => state), told };
}

async function onPage(): Promise<CardCheck> {
  const answer = await fetch(`${station?.ready.web}/api/v1/cards`);
  return cardDesk.parse(await answer.json()).check ?? expect.unreachable();
}

/** Checks the card as the page does. */
async function byPage(): Promise<CardCheck> {
  const begun = await fetch(`${station?.ready.web}/api/v1/cards`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ folder: card }),
  });
  expect(begun.status).toBe(202);
  await eventually('the card is read', async () => (await onPage()).state === 'done');
  return onPage();
}

test.skipIf(!hasDevices || !hasProgram('mount') || !hasProgram('curl'))(
  'a card may be wiped only while every file of it is in the home and on another disk, by command and page alike',
  async ({ skip }) => {
    if ((await runProgram('mount', ['-t', 'tmpfs', '-o', 'size=8m', 'tmpfs', card])).code !== 0)
      skip('no mount');
    const dcim = join(card, 'DCIM/100QMST');
    await mkdir(dcim, { recursive: true });
    station = await startStation(home, ['--copy', place, '--card', card]);
    const web = `${station.ready.web}/api/v1`;
    await fetch(`${web}/jobs`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ code: 'QM-26', title: 'Autumn catalogue', open: true }),
    });
    for (const name of names) {
      await writeFile(join(dcim, name), `${name}, a frame`);
      expect((await curlUpload(station, join(dcim, name), `/${name}`)).code).toBe(0);
    }
    await eventually('both are in the second place', async () =>
      (await station?.frames())?.every(({ files }) => files[0]?.copies === 1),
    );

    const strikePage = hasBrowser ? await (await launched()).newPage() : null;
    await strikePage?.goto(`${station.ready.web}/#/strike/QM-26`);
    // Loaded, and nobody has said the last number.
    await strikePage?.getByText('QMST0002.TXT').first().waitFor();
    expect(await strikePage?.getByText('found by the card check').count()).toBe(
      strikePage === null ? undefined : 0,
    );
    // The command, and the station hears of it: the page, and the strike check's question for the last number.
    expect(await byCommand()).toEqual({ code: 0, safe: true, states: ['safe', 'safe'], told: 'told' });
    expect(await onPage()).toMatchObject({ mayBeWiped: true, byCommand: true, journalled: true });
    const check = strike.parse(await (await fetch(`${web}/strike?job=QM-26`)).json());
    // A page that lay open sees it by itself.
    await strikePage?.getByText('found by the card check').first().waitFor();
    expect(check.cameras.map(({ said }) => [said?.counter, said?.how])).toEqual([[2, 'card']]);
    expect(await byPage()).toMatchObject({ mayBeWiped: true, byCommand: false, counts: { safe: 2 } });

    // A file changed on the card after the check.
    const first = join(dcim, names[0] ?? '');
    const bytes = await readFile(first);
    await writeFile(first, 'another frame, of another size');
    expect(await onPage()).toMatchObject({ mayBeWiped: false, findings: [{ code: 'card.changed' }] });
    expect(await byCommand()).toMatchObject({ code: 1, safe: false, states: ['missing', 'safe'] });
    expect(await onPage()).toMatchObject({ mayBeWiped: false, counts: { missing: 1 } });
    await writeFile(first, bytes);
    expect(await byCommand()).toMatchObject({ code: 0, safe: true });

    // The copy altered, in its own size.
    const copy = join(place, 'jobs/QM-26/originals/cam1', names[0] ?? '');
    await writeFile(copy, bytes.toReversed());
    expect(await byCommand()).toMatchObject({ code: 1, states: ['once', 'safe'] });
    expect(await byPage()).toMatchObject({ mayBeWiped: false, counts: { once: 1, safe: 1 } });
    await writeFile(copy, bytes);
    expect((await byPage()).mayBeWiped).toBe(true);

    // The place away, as a disk that was taken off.
    await rename(place, `${place}-away`);
    try {
      expect(await byCommand()).toMatchObject({ code: 1, states: ['once', 'once'] });
      expect(await byPage()).toMatchObject({ mayBeWiped: false, counts: { once: 2 } });
    } finally {
      await rename(`${place}-away`, place);
    }

    // The card pulled out after a good check, and nothing runs that could be told.
    expect((await byPage()).mayBeWiped).toBe(true);
    await station.stop();
    expect(await byCommand()).toMatchObject({ code: 0, safe: true, told: 'none' });
  },
  300_000,
);
