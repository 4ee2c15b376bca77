import { expect, test } from 'vitest';
import type { CaptureFacts } from '../../facts/index.ts';
import type { FileRow, FrameRow } from '../../register/index.ts';
import { bracketAround } from './bracket-around.ts';
import { bumpedSettings } from './settings-guard.ts';

type Row = Parameters<typeof bumpedSettings>[1];

const dials: CaptureFacts = {
  exposureTimeS: 1 / 125,
  fNumber: 11,
  sensitivity: 100,
  widthPx: 6000,
  heightPx: 4000,
};

function frame(id: string, atS: number, capture: CaptureFacts | null, more: Partial<Row> = {}): Row {
  const atMs = atS * 1000;
  const shutter = { atMs, offsetKnown: true, subSecondsKnown: true };
  return {
    id,
    job: 'QM-26',
    camera: 'cam1',
    orderMs: atMs,
    shutterMs: atMs,
    purpose: 'picture',
    capture: capture === null ? null : { ...capture, shutter },
    kind: 'dng',
    files: [file(`${id}.DNG`)],
    times: {
      beganMs: atMs,
      firstByteMs: atMs,
      firstViewMs: null,
      lastByteMs: atMs,
      keptMs: atMs,
      renderedMs: null,
      judgedMs: null,
    },
    ...more,
  };
}

function file(name: string, path: string | null = `originals/${name}`): FileRow {
  return {
    arrival: name,
    name,
    viewPath: name,
    path,
    incoming: name,
    sizeBytes: 1,
    expectedBytes: null,
    announcedBytes: null,
    sha256: null,
    state: path === null ? 'arriving' : 'whole',
    hidden: false,
    firstByteMs: null,
    keptMs: null,
    copies: [],
  };
}

/** Only what the guard looks at is there. */
function register(rows: readonly Row[]) {
  const whole = rows as readonly FrameRow[];
  return {
    frame: async (id: string) => whole.find((row) => row.id === id) ?? null,
    framesPage: async ({ camera }: { readonly camera?: string }) => ({
      frames: whole.filter((row) => camera === undefined || row.camera === camera),
      next: null,
    }),
  };
}

const reference = frame('ref', 0, dials);
const bumped = async (row: Row, others: readonly Row[] = [], nowS = 1000): Promise<string[]> => {
  const rows = [reference, ...others.filter(({ id }) => id !== 'ref' && id !== row.id), row];
  const changes = await bumpedSettings(register(rows), row, 'ref', nowS * 1000);
  return changes.map(({ setting }) => setting);
};

test('a bumped aperture is told of pictures of the same camera, and of nothing else', async () => {
  const open: CaptureFacts = { ...dials, fNumber: 8 };
  expect(await bumped(frame('f1', 60, open))).toEqual(['aperture']);
  for (const purpose of ['test', 'target', 'plate', 'stack', 'light-layer'] as const) {
    expect(await bumped(frame('f1', 60, open, { purpose }))).toEqual([]);
  }
  expect(await bumped(frame('f1', 60, open, { camera: 'cam2' }))).toEqual([]);
  expect(await bumped(frame('f1', 60, null))).toEqual([]);
  expect(await bumpedSettings(register([reference]), frame('f1', 60, open), null, 0)).toEqual([]);
});

test('a bracket is meant: when its third frame is here none of them is told, before that the second is', async () => {
  const at = [1 / 125, 1 / 250, 1 / 60].map((exposureTimeS, index) =>
    frame(`b${index}`, 60 + index, { ...dials, exposureTimeS }),
  );
  const [middle, under, over] = at;
  if (middle === undefined || under === undefined || over === undefined) throw new Error('three were made');
  expect(await bumped(under, [middle])).toEqual(['time']);
  for (const each of at) expect(await bumped(each, at)).toEqual([]);
  expect(await bracketAround(register(at), over)).toEqual(['b0', 'b1', 'b2']);
  // Apart from it the same time is no bracket's.
  const later = frame('late', 200, { ...dials, exposureTimeS: 1 / 60 });
  expect(await bumped(later, at)).toEqual(['time']);
});

test('a bracket that the camera declares is never told, not even its first frame', async () => {
  expect(await bumped(frame('b0', 60, { ...dials, exposureTimeS: 1 / 250, inBracket: true }))).toEqual([]);
});

test('a file that still arrives says nothing of its quality yet, but what its dials stood at', async () => {
  const small: CaptureFacts = { ...dials, widthPx: 3000, heightPx: 2000, fNumber: 8 };
  expect(await bumped(frame('f1', 60, small, { files: [file('f1.DNG', null)] }))).toEqual(['aperture']);
  expect(await bumped(frame('f1', 60, small))).toEqual(['aperture', 'size']);
});

test('a JPEG whose raw may still follow is not told for a raw; when its time is over it is', async () => {
  const both = frame('ref', 0, dials, { files: [file('ref.DNG'), file('ref.JPG')] });
  const jpeg = frame('f1', 60, dials, { kind: 'jpeg', files: [file('f1.JPG')] });
  const told = async (nowS: number): Promise<string[]> =>
    (await bumpedSettings(register([both, jpeg]), jpeg, 'ref', nowS * 1000)).map(({ setting }) => setting);
  expect(await told(61)).toEqual([]);
  expect(await told(400)).toEqual(['format']);
});
