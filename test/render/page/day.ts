import type { Frame, FrameVerdict, JobSummary } from '../../../src/contract/index.ts';
import { sampleFile, sampleFrame, sampleInstant } from '../../../src/page/testing/sample-frame.ts';
import type { FakeStation } from './fake-station.ts';
import { type StillLife, stillLifeJpeg } from './still-life.ts';

/** An invented job for the day of the fake station. */
export const potteryJob: JobSummary = {
  code: 'kiln-07',
  currentShot: 's3',
  title: 'Stoneware, autumn list',
  client: 'Kiln and Table (invented)',
  shots: [
    { id: 's1', name: 'Target and empty set' },
    { id: 's2', name: 'Tall pot, front' },
    { id: 's3', name: 'Tall pot with bowl' },
    { id: 's4', name: 'Bowls in a row' },
    { id: 's5', name: 'Glaze, close' },
    { id: 's6', name: 'The whole list' },
  ],
};

const full = { width: 1500, height: 1000 };

/** Seconds after noon at which frames were taken: a quick start, a pause, a steady rhythm, a burst, a long pause. */
const rhythm = [0, 14, 31, 52, 640, 655, 668, 684, 700, 703, 705, 708, 724, 739, 2900, 2921, 2935];

/** A morning's frames of one camera, some judged as later versions of the station will judge them. */
export async function shootDay(
  station: FakeStation,
  options: { judged: boolean; cameras: number },
): Promise<void> {
  station.station = { ...station.station, job: potteryJob };
  for (const [index, second] of rhythm.entries()) {
    const camera = options.cameras > 1 && index % 3 === 2 ? 'cam2' : 'cam1';
    const counter = 41 + index + (index > 7 ? 2 : 0);
    const id = `f${index}`;
    const frame = sampleFrame(id, second, {
      name: `${camera === 'cam2' ? 'B' : 'A'}_SS${String(counter).padStart(4, '0')}.DNG`,
      camera,
      counter: options.cameras > 1 ? null : counter,
      job: potteryJob.code,
      shot: shotOf(index),
      mark: index === 3 ? 'hero' : index === 8 ? 'select' : index === 10 ? 'out' : 'none',
      picture: {
        state: 'rendered',
        ...full,
        source: 'raw',
        look: '',
        target: null,
        original: null,
        version: 2,
      },
      ...(options.judged ? { verdicts: judgedAs(index) } : {}),
    });
    station.put(frame, { rendering: await renderingOf(index) });
  }
}

function shotOf(index: number): string {
  if (index < 4) return 's1';
  return index < 14 ? 's2' : 's3';
}

const renderings = new Map<number, Promise<Buffer>>();

/** Drawn once for all the tests of a file. */
function renderingOf(index: number): Promise<Buffer> {
  const drawn = renderings.get(index) ?? stillLifeJpeg(lifeOf(index), full.width, full.height);
  renderings.set(index, drawn);
  return drawn;
}

function lifeOf(index: number): StillLife {
  return { place: (index * 0.37) % 1, hue: (190 + index * 37) % 360, light: index === 9 ? 0.55 : 1 };
}

function judgedAs(index: number): Frame['verdicts'] {
  const good = (code: string, value: number, unit: string): FrameVerdict => ({
    judgement: 'good',
    findings: [{ code, args: {} }],
    figure: { value, unit },
  });
  const base = sampleFrame('x', 0).verdicts;
  return {
    arrived: base.arrived,
    sharp:
      index === 16
        ? {
            judgement: 'doubt',
            findings: [{ code: 'sharp.soft', args: { px: 4.1 } }],
            figure: { value: 4.1, unit: 'px' },
          }
        : good('sharp.good', 1.5, 'px'),
    exposed:
      index === 9
        ? {
            judgement: 'bad',
            findings: [{ code: 'exposed.dark', args: { ev: -0.9 } }],
            figure: { value: -0.9, unit: 'EV' },
          }
        : good('exposed.good', 0.04, 'EV'),
    inPlace: good('in-place.good', 0.3, 'mm'),
    colour: base.colour,
  };
}

/** A frame that has `share` of its 24.6 MB here. */
export function arrivingFrame(id: string, second: number, share: number): Frame {
  const frame = sampleFrame(id, second);
  const bytes = Math.round(24_600_000 * share);
  const unknown = frame.verdicts.sharp;
  return {
    ...frame,
    name: 'A_SS0060.DNG',
    counter: 60,
    shot: 's3',
    files: [
      sampleFile('A_SS0060.DNG', { size: bytes, sha256: null, state: 'arriving', bytesPerSecond: 4.1e6 }),
    ],
    times: { ...frame.times, firstView: null, lastByte: null, kept: null, rendered: null, judged: null },
    picture: { state: 'none' },
    verdicts: {
      ...frame.verdicts,
      arrived: {
        ...unknown,
        findings: [{ code: 'arrived.arriving', args: { bytes, expectedBytes: 24_600_000 } }],
      },
    },
  };
}

/** The same frame with a first view cut from it. */
export function withFirstView(frame: Frame, share: number): Frame {
  return {
    ...frame,
    times: { ...frame.times, firstView: sampleInstant(1) },
    picture: {
      state: 'first-view',
      ...full,
      orientation: 1,
      previewWidth: 640,
      previewHeight: 427,
      arrivedShare: share,
      version: 1,
    },
  };
}

/** A frame that broke off after `share`. */
export function brokenOffFrame(id: string, second: number, share: number): Frame {
  const frame = arrivingFrame(id, second, share);
  const bytes = Math.round(24_600_000 * share);
  return {
    ...frame,
    name: 'A_SS0059.DNG',
    counter: 59,
    files: [sampleFile('A_SS0059.DNG', { size: bytes, sha256: null, state: 'broken-off' })],
    verdicts: {
      ...frame.verdicts,
      arrived: {
        judgement: 'bad',
        findings: [{ code: 'arrived.broken-off', args: { bytes, expectedBytes: 24_600_000 } }],
        figure: { value: share * 100, unit: '%' },
      },
    },
  };
}

/** A text file that somebody put on the card. */
export function textFrame(id: string, second: number): Frame {
  const reason = { code: 'picture.not-a-picture', args: { name: 'NOTES.TXT', kind: 'text' } };
  return sampleFrame(id, second, {
    name: 'NOTES.TXT',
    kind: 'text',
    shot: 's3',
    files: [sampleFile('NOTES.TXT', { size: 812, expectedSize: 812, state: 'unproved' })],
    picture: {
      state: 'cannot',
      reason,
      preview: false,
      width: null,
      height: null,
      orientation: null,
      version: 1,
    },
    verdicts: {
      ...sampleFrame('x', 0).verdicts,
      arrived: {
        judgement: 'doubt',
        findings: [{ code: 'arrived.unproved', args: { bytes: 812 } }],
        figure: { value: 0.8, unit: 'kB' },
      },
    },
  });
}
