import { expect, test } from 'vitest';
import type { KeptReadings } from '../../facts/index.ts';
import { noWishes, partReadings, readPicture } from '../../judge/index.ts';
import type { FrameRow } from '../../register/index.ts';
import { ReferenceHolder } from './reference-holder.ts';

const picture = {
  data: new Uint8Array(96 * 64 * 3).map((_, at) => 200 - (Math.floor(at / 3) % 96) / 4),
  widthPx: 96,
  heightPx: 64,
  channels: 3,
} as const;
const { kept, detail } = partReadings(readPicture(picture, noWishes, null), null, null);
const noTimes: FrameRow['times'] = {
  beganMs: null,
  firstByteMs: null,
  firstViewMs: null,
  lastByteMs: null,
  keptMs: null,
  renderedMs: null,
  judgedMs: null,
};

const row = (id: string, readings: KeptReadings): FrameRow => ({
  id,
  job: 'unsorted',
  shot: 's1',
  camera: 'cam1',
  name: `${id}.JPG`,
  kind: 'jpeg',
  shutterMs: null,
  orderMs: 0,
  times: noTimes,
  capture: null,
  mark: 'none',
  purpose: 'picture',
  spot: null,
  marked: false,
  markedMs: null,
  placedBy: 'arrival',
  shotless: null,
  look: null,
  slate: null,
  seen: null,
  acceptances: [],
  share: null,
  remarks: [],
  picture: null,
  readings,
  files: [],
  version: 1,
});

test('a reference that was read anew, at another spot, is held against anew; one that was not, is not', async () => {
  let reference = row('ref', kept);
  const noted: string[] = [];
  const holder = new ReferenceHolder({
    frame: async () => reference,
    readingDetail: async () => detail,
    upsertFacts: async (id) => {
      noted.push(id);
    },
  });
  const against = { reference: 'ref', counted: null, balance: null };
  const first = await holder.hold(row('f1', kept), against);
  expect(first.readings?.against?.sharp.atSpot).toEqual(kept.sharp.atSpot);
  expect(await holder.hold(first, against)).toBe(first);
  expect(noted).toEqual(['f1']);
  const atSpot = {
    widthPx: 7.5,
    errorPx: 0.1,
    sigmaPx: 2.9,
    mtf50: null,
    snr: 20,
    edges: 3,
    confidence: 0.9,
  };
  reference = row('ref', { ...kept, sharp: { ...kept.sharp, atSpot } });
  const anew = await holder.hold(first, against);
  expect(anew.readings?.against?.sharp.atSpot).toMatchObject({ widthPx: 7.5 });
  expect(noted).toEqual(['f1', 'f1']);
});
