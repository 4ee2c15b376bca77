import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { JobReport, ReportShot, StrikeLine } from '../job/index.ts';
import { type JobReportPaper, jobReportPdf } from './index.ts';
import { deviceColour, drawnPages, hasPoppler, said } from './testing/poppler.ts';

const folder = mkdtempSync(join(tmpdir(), 'setside-report-'));
afterAll(() => rmSync(folder, { recursive: true }));

const shot = (name: string, open = 0): ReportShot => ({
  name,
  pictures: 14,
  heroes: { there: open === 0 ? 1 : 0, wanted: 1 },
  selects: { there: 2, wanted: 2 },
  agreement: open === 0 ? 'given' : 'missing',
  open,
  accepted: 0,
});
const line = (
  code: string,
  args: StrikeLine['finding']['args'],
  accepted: StrikeLine['accepted'] = null,
): StrikeLine => ({
  key: code,
  cost: 'card',
  finding: { code, args },
  because: null,
  shot: null,
  frame: null,
  question: null,
  counting: null,
  explainable: true,
  accepted,
});
const gap = line('strike.gap', { camera: 'cam1', from: 12, to: 14, count: 3 });
const seconds = Array.from({ length: 120 }, (_, at) => 0.8 + at * 0.02);
const atMs = Date.UTC(2026, 10, 30, 9);
const report: JobReport = {
  shots: [shot('Mug from the side'), shot('Jug', 2), shot('Teapot')],
  frames: 120,
  shotless: 4,
  times: {
    steps: [
      { step: 'shutter-view', seconds, p50S: 2, p90S: 2.9, p99S: 3.2, maxS: 3.2 },
      {
        step: 'shutter-rendering',
        seconds: seconds.map((each) => each * 3),
        p50S: 6,
        p90S: 9,
        p99S: 9.5,
        maxS: 9.6,
      },
      { step: 'byte-view', seconds: [], p50S: null, p90S: null, p99S: null, maxS: null },
      { step: 'byte-rendering', seconds: [], p50S: null, p90S: null, p99S: null, maxS: null },
    ],
    doubts: [
      { code: 'report.clock-not-compared', args: { camera: 'cam1' } },
      { code: 'report.whole-seconds', args: { count: 120 } },
    ],
  },
  colour: [
    {
      name: 'QMST0001.DNG',
      shot: 'Mug from the side',
      atMs,
      meanDeltaE00: 3.1,
      maxDeltaE00: 8.4,
      deliveredMeanDeltaE00: 1.4,
      meanLimit: { good: 4, bad: 7 },
      maxLimit: { good: 10, bad: 16 },
      judgement: 'good',
    },
  ],
  light: {
    limit: { good: 0.15, bad: 0.5 },
    points: Array.from({ length: 60 }, (_, at) => ({
      name: `QMST${at}.DNG`,
      shot: null,
      atMs: atMs + at * 240_000,
      ev: at === 41 ? -0.8 : Math.sin(at / 9) * 0.2,
      judgement: at === 41 ? ('bad' as const) : ('good' as const),
    })),
    unknown: 3,
  },
  numbers: { missing: 3, lines: [gap], cameras: [] },
  copies: { secondPlaces: 1, files: 240, twice: 238, direct: 238, notWhole: 0 },
  ready: false,
  open: [line('strike.no-hero', { shot: 'Jug', wanted: 1, marked: 0 }), gap],
  accepted: [
    line('strike.number-wanted', { camera: 'cam2', name: 'X' }, { name: 'Ines', reason: 'read off' }),
  ],
  signed: null,
};
const given: JobReportPaper = {
  title: 'Job report: QM-26',
  lead: ['Autumn catalogue, for Quillmere Ceramics'],
  report,
  size: 'a4',
  written: 'As it stood on 2026-11-30.',
  atMs,
  clock: (at) => new Date(at).toISOString().slice(11, 16),
  dayAndTime: (at) => new Date(at).toISOString(),
};
const file = join(folder, 'report.pdf');
let bytes: Uint8Array = new Uint8Array();
beforeAll(async () => {
  bytes = await jobReportPdf(given);
  writeFileSync(file, bytes);
});
const textOf = async (more: Partial<JobReport>, size: 'a4' | 'letter' = 'a4'): Promise<string> => {
  const path = join(folder, 'other.pdf');
  writeFileSync(path, await jobReportPdf({ ...given, size, report: { ...report, ...more } }));
  expect(said('pdfinfo', path)).toMatch(/^Pages: +1$/m);
  return said('pdftotext', '-layout', path, '-').replace(/\s+/g, ' ');
};

test.skipIf(!hasPoppler)(
  'a word on how waits are known stands below the waits, not below what is beside them',
  async () => {
    const path = join(folder, 'short.pdf');
    const times = { ...report.times, doubts: [] };
    writeFileSync(path, await jobReportPdf({ ...given, report: { ...report, times } }));
    // A4 is 595 pt wide (ISO 216); pdftotext -x -y -W -H take pixels of 72 to the inch.
    const right = said(
      'pdftotext',
      ...['-x', '305', '-y', '0', '-W', '290', '-H', '842', '-layout', path, '-'],
    );
    expect(right).toContain('Light against the reference');
    expect(right).not.toContain('clock');
    expect(said('pdftotext', '-layout', path, '-')).toContain('clock');
  },
);

test.skipIf(!hasPoppler)('poppler finds one page of A4, its type embedded', () => {
  expect(said('pdfinfo', file)).toMatch(/^Pages: +1$/m);
  expect(said('pdfinfo', file)).toMatch(/\(A4\)$/m);
  const fonts = said('pdffonts', file).trim().split('\n').slice(2);
  expect(fonts.length).toBeGreaterThan(1);
  for (const row of fonts) expect(row).toMatch(/FiraSans.* yes yes yes /);
});

test.skipIf(!hasPoppler)(
  'what a person asks first can be read: the answer, counts, waits with their doubt, colour, numbers, copies, who signed',
  () => {
    const text = said('pdftotext', '-layout', file, '-').replace(/\s+/g, ' ');
    for (const words of [
      'Leave the set standing: 2 lines are open.',
      '120 frames, 4 of no shot of the list',
      'Jug 14 0 of 1 2 of 2 not agreed yet 2 open',
      'seconds after the shutter',
      'p50 2.0 s, p90 2.9 s, p99 3.2 s, longest 3.2 s, of 120',
      'nobody compared its clock with the station’s',
      '120 frames tell the shutter in whole seconds',
      'QMST0001.DNG 3.1 8.4 1.4 good',
      '3 numbers never came.',
      '238 of 240 files lie on a second device',
      'time of day',
      '1 line accepted by name: Ines.',
      'Nobody has signed the strike check.',
    ])
      expect(text).toContain(words);
  },
);

test.skipIf(!hasPoppler)('where nothing is known it says so', async () => {
  const none = report.times.steps.map((step) => ({ ...step, seconds: [], p50S: null, maxS: null }));
  const text = await textOf({
    shots: [],
    times: { steps: none, doubts: [] },
    colour: [],
    light: { ...report.light, points: [], unknown: 7 },
    numbers: { missing: 0, lines: [], cameras: [] },
    copies: { secondPlaces: 0, files: 9, twice: 0, direct: 0, notWhole: 0 },
    open: [],
    ready: true,
    signed: { name: 'Ines', atMs, stands: true },
  });
  for (const words of [
    'No shot is listed',
    'nothing is known',
    'none of 7 pictures could be held against a reference',
    'No target was read',
    'There is no second place that counts',
    'Nothing is open.',
    'Signed by Ines',
  ])
    expect(text).toContain(words);
});

test.skipIf(!hasPoppler)(
  'a long job still fits on its page, Letter too: what is open comes first, and what is left out is counted',
  async () => {
    const shots = Array.from({ length: 60 }, (_, at) =>
      shot(`Shot number ${at} with a rather long name that goes on`, at > 55 ? 1 : 0),
    );
    const open = Array.from({ length: 80 }, (_, at) => line('strike.word-missing', { shot: `Shot ${at}` }));
    const doubts = Array.from({ length: 9 }, (_, at) => ({
      code: 'report.clock-not-compared',
      args: { camera: `cam${at}` },
    }));
    const text = await textOf({ shots, open, times: { ...report.times, doubts } }, 'letter');
    for (const at of [56, 57, 58, 59]) expect(text).toContain(`Shot number ${at} with`);
    expect(text).toContain('and 50 more shots, none of them with open lines');
    expect(text).toContain('and 5 more to be said of how times are known.');
    expect(text).toMatch(/and 7\d more: the strike check lists them\./);
    expect(text).toContain('Nobody has signed the strike check.');
  },
);

test.skipIf(!hasPoppler)(
  'without a shutter to believe, waits are told from the first byte, and the axis says so',
  async () => {
    const [view, rendering] = report.times.steps;
    if (view === undefined || rendering === undefined) throw new Error('the sample has both');
    const text = await textOf({
      times: {
        steps: [
          { ...view, seconds: [], maxS: null },
          { ...rendering, seconds: [], maxS: null },
          { ...view, step: 'byte-view' },
          { ...rendering, step: 'byte-rendering' },
        ],
        doubts: [{ code: 'report.clock-ahead', args: { camera: 'cam1', seconds: 12 } }],
      },
    });
    expect(text).toContain('seconds after the first byte');
    expect(text).toContain('12 s before it was taken');
  },
);

test('no colour is that of a device, and the same values give the same bytes', async () => {
  const drawn = drawnPages(bytes);
  expect(drawn).toHaveLength(1);
  expect(drawn[0]).not.toMatch(deviceColour);
  expect(Buffer.from(await jobReportPdf(given)).equals(Buffer.from(bytes))).toBe(true);
});
