import { spawnSync } from 'node:child_process';
import { readFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { jobReport, type PaperUnderWay, stationEvent } from '../../src/contract/index.ts';
import { curlUpload, hasProgram, type Ran, runProgram } from './clients.ts';
import { madeRaw } from './made-raw.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');

/** Papers of the real station; poppler reads them as somebody else's program would. */
describe.skipIf(!hasProgram('curl') || !hasProgram('pdfinfo'))('papers of the real station', () => {
  let home: string;
  let station: RunningStation;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    await send('POST', '/jobs', { code: 'QM-26', open: true });
    await send('PATCH', '/jobs/QM-26', { title: 'Autumn catalogue', client: 'Quillmere Ceramics' });
    await send('POST', '/jobs/QM-26/shots', { name: 'Кружка' });
    const shot = await shotId();
    await send('PATCH', '/jobs/QM-26', { currentShot: shot });
    for (const counter of [1, 2, 3]) await upload(`QMST000${counter}.JPG`, await jpeg(counter));
    await upload('QMST0005.DNG', madeRaw({ sigmaPx: 1, ev: 0 }));
    await eventually('four pictures', async () => {
      const frames = await station.frames();
      return frames.length === 4 && frames.every(({ picture }) => picture.state === 'rendered');
    });
    await mark('hero', 5);
    await mark('select', 2);
    const [first] = await station.frames();
    await send('POST', `/frames/${first?.id}/remarks`, {
      id: 'remark-0001',
      text: 'The rim is chipped.',
      point: { x: 0.5, y: 0.5 },
    });
  });

  afterAll(async () => {
    await station.stop();
    await removeHome(home);
  });

  function send(method: string, path: string, body?: unknown): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: body === undefined ? {} : { 'content-type': 'application/json' },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  }

  async function shotId(): Promise<string> {
    const job: unknown = await (await send('GET', '/jobs/QM-26')).json();
    const id = /"shots":\[\{"id":"([^"]+)"/.exec(JSON.stringify(job))?.[1];
    if (id === undefined) throw new Error('the job has no shot');
    return id;
  }

  async function jpeg(counter: number): Promise<Uint8Array> {
    const background = { r: 90 + counter * 20, g: 120, b: 60 };
    return sharp({ create: { width: 600, height: 400, channels: 3, background } })
      .jpeg()
      .toBuffer();
  }

  async function upload(name: string, bytes: Uint8Array): Promise<void> {
    const file = join(home, name);
    await writeFile(file, bytes);
    expect((await curlUpload(station, file, `/${name}`)).code).toBe(0);
  }

  async function mark(wanted: string, counter: number): Promise<void> {
    const frame = (await station.frames()).find((each) => each.counter === counter);
    await send('PATCH', `/frames/${frame?.id}`, { mark: wanted });
  }

  const setside = (...args: string[]): Promise<Ran> =>
    runProgram(process.execPath, [binary, ...args, '--station', station.ready.web]);
  const poppler = (program: string, ...args: string[]): string => {
    const { stdout, stderr } = spawnSync(program, args, { encoding: 'utf8' });
    expect(stderr, program).toBe('');
    return stdout;
  };

  test('a contact sheet by the command: every frame under its shot, hero and select first, pictures in a space with a profile', async () => {
    const file = join(home, 'sheet.pdf');
    const ran = await setside('sheet', 'QM-26', '--to', file, '--json');
    expect(ran.code, ran.stderr).toBe(0);
    expect(JSON.parse(ran.stdout)).toEqual({ file, frames: 4, pages: 1 });
    const text = poppler('pdftotext', file, '-');
    expect(text).toContain('Quillmere Ceramics');
    expect(text).toContain('Кружка');
    // The hero, the select, and then the others as they were taken.
    const places = ['QMST0005', 'QMST0002', 'QMST0001', 'QMST0003'].map((name) => text.indexOf(name));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(text).toContain('The rim is chipped.');
    expect(text).toContain('1 of 1');
    const rows = poppler('pdfimages', '-list', file).trim().split('\n').slice(2);
    expect(rows).toHaveLength(4);
    for (const row of rows) expect(row).toMatch(/ icc +3 +8 +jpeg /);
    for (const row of poppler('pdffonts', file).trim().split('\n').slice(2))
      expect(row).toMatch(/ yes yes yes /);
  });

  test('a copy for the client holds what guests see, and no verdict; what nobody marked is not on it', async () => {
    const file = join(home, 'client.pdf');
    const ran = await setside('sheet', 'QM-26', '--to', file, '--client', '--columns', '2');
    expect(ran.code, ran.stderr).toBe(0);
    const text = poppler('pdftotext', file, '-');
    expect(text).toContain('QMST0005');
    expect(text).toContain('QMST0002');
    expect(text).not.toContain('QMST0001');
    expect(text).not.toContain('verdict');
  });

  test('nothing is written over; what cannot be printed is told, with what to do, and leaves no file', async () => {
    const file = join(home, 'other.pdf');
    await writeFile(file, 'mine');
    const over = await setside('sheet', 'QM-26', '--to', file);
    expect(over.code).toBe(3);
    expect(over.stderr).toContain('is there already');
    expect(await readFile(file, 'utf8')).toBe('mine');
    const none = await setside('sheet', 'QM-26', '--marks', 'alternate', '--to', join(home, 'none.pdf'));
    expect(none.code).toBe(1);
    expect(none.stderr).toContain('Ask for other marks');
    await expect(stat(join(home, 'none.pdf'))).rejects.toMatchObject({ code: 'ENOENT' });
    for (const command of ['sheet', 'report']) {
      const nope = await setside(command, 'nope', '--to', join(home, 'nope.pdf'));
      expect(nope.code, command).toBe(1);
      expect(nope.stderr).toContain('There is no job nope');
      expect(nope.stderr).toContain('setside job list shows those there are');
    }
    expect((await setside('sheet', 'QM-26', '--columns', '9')).code).toBe(2);
  });

  test('the report by the command: one page with the counts, the gap, and what nobody knows', async () => {
    const file = join(home, 'report.pdf');
    const ran = await setside('report', 'QM-26', '--to', file, '--paper', 'letter');
    expect(ran.code, ran.stderr).toBe(0);
    expect(poppler('pdfinfo', file)).toMatch(/^Pages: +1$/m);
    const text = poppler('pdftotext', '-layout', file, '-').replace(/\s+/g, ' ');
    expect(text).toContain('Кружка 4 1 of 1');
    expect(text).toContain('1 number never came.');
    expect(text).toContain('number 0004');
    expect(text).toContain('There is no second place that counts');
    expect(text).toContain('No target was read');
    expect(text).toContain('Nobody has signed the strike check.');
  });

  test('the report as figures says what the page says', async () => {
    const ran = await setside('report', 'QM-26', '--figures');
    expect(ran.code, ran.stderr).toBe(0);
    // The program's output is kept byte by byte.
    const printed = Buffer.from(ran.stdout, 'latin1').toString('utf8');
    const figures = jobReport.parse(JSON.parse(printed));
    expect(jobReport.parse(await (await send('GET', '/jobs/QM-26/report')).json())).toEqual({
      ...figures,
      at: expect.any(String),
    });
    expect(figures).toMatchObject({
      ...{ job: 'QM-26', title: 'Autumn catalogue', client: 'Quillmere Ceramics' },
      ...{ frames: 4, shotless: 0, ready: false, colour: [], signed: null },
      shots: [{ name: 'Кружка', pictures: 4, heroes: { there: 1 }, selects: { there: 1 } }],
      numbers: { missing: 1 },
      copies: { secondPlaces: 0, files: 4, twice: 0 },
    });
    const waited = figures.times.steps.find(({ step }) => step === 'byte-rendering')?.seconds ?? [];
    expect(waited).toHaveLength(4);
    expect(waited).toEqual([...waited].sort((a, b) => a - b));
    expect((await setside('report', 'NONE', '--figures')).code).toBe(1);
  });

  test('whoever listens hears of a sheet as it begins, how far it is, and that none is left', async () => {
    const ended = new AbortController();
    const heard: PaperUnderWay[][] = [];
    const stream = await fetch(`${station.ready.web}/api/v1/events`, { signal: ended.signal });
    const listening = (async () => {
      const text = stream.body?.pipeThrough(new TextDecoderStream()) ?? [];
      let rest = '';
      for await (const part of text) {
        const lines = (rest + part).split('\n');
        rest = lines.pop() ?? '';
        for (const line of lines.filter((each) => each.startsWith('data: '))) {
          const event = stationEvent.parse(JSON.parse(line.slice(6)));
          if (event.type === 'papers' && event.job === 'QM-26') heard.push(event.contactSheets);
        }
      }
    })().catch(() => {});
    const answer = await send('GET', '/jobs/QM-26/contact-sheet.pdf');
    await answer.arrayBuffer();
    await eventually('the end was told', async () => heard.length > 1 && heard.at(-1)?.length === 0);
    ended.abort();
    await listening;
    expect(heard[0]).toMatchObject([{ frames: null, done: 0 }]);
    expect(heard.flat().some(({ frames }) => frames === 4)).toBe(true);
  });

  test('once a sheet is drawn, or nobody takes it any more, nothing is under way', async () => {
    for (const turn of [1, 2, 3]) {
      const gone = new AbortController();
      const answer = await fetch(`${station.ready.web}/api/v1/jobs/QM-26/contact-sheet.pdf`, {
        signal: gone.signal,
      });
      expect(answer.status, `turn ${turn}`).toBe(200);
      gone.abort();
    }
    await eventually('nothing is under way', async () => {
      const told: unknown = await (await send('GET', '/jobs/QM-26/papers')).json();
      return JSON.stringify(told) === '{"contactSheets":[]}';
    });
  });
});
