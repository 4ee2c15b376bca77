import { expect, test } from 'vitest';
import type { FocusSpot, ShareBox, SpotTeller } from '../../facts/index.ts';
import {
  readElsewhere,
  SpotsOfTheDay,
  type SpottedFrames,
  type SpottedRow,
  spotFor,
} from './spot-readings.ts';

const left: ShareBox = { left: 0.1, top: 0.4, right: 0.2, bottom: 0.5 };
const right: ShareBox = { left: 0.8, top: 0.4, right: 0.9, bottom: 0.5 };

/** The frame's number is its place in the shot; `read`: where it was read last. */
function row(
  at: number,
  spot: FocusSpot | null,
  read: (ShareBox & { teller: SpotTeller }) | null,
): SpottedRow {
  return { id: `f${at}`, job: 'QM-1', shot: 'mug', orderMs: at, spot, readings: { sharp: { spot: read } } };
}

function framesOf(rows: readonly SpottedRow[]): SpottedFrames {
  return {
    row: async (id) => rows.find((each) => each.id === id) ?? null,
    rows: async ({ behind }) => ({ frames: rows.filter(({ orderMs }) => orderMs > (behind?.orderMs ?? 0)) }),
  };
}

const nobody = { spotOnward: async () => null };
const ids = (found: readonly { readonly id: string }[]): string[] => found.map(({ id }) => id);

test('a spot for the shot reaches the frames behind it, up to where another was pointed out', async () => {
  const sharpest = { ...right, teller: 'sharpest' } as const;
  const rows = [
    row(1, { box: left, onward: true }, sharpest),
    row(2, null, sharpest),
    // Turned with the picture and back: the same box.
    row(3, null, { ...left, left: left.left + 1e-9, teller: 'given' }),
    row(4, { box: right, onward: true }, { ...right, teller: 'given' }),
    row(5, null, { ...left, teller: 'given' }),
  ];
  expect(ids(await readElsewhere(framesOf(rows), nobody, 'f1'))).toEqual(['f1', 'f2', 'f5']);
});

test('a spot for one frame leaves those behind it to what was pointed out before', async () => {
  const rows = [row(1, { box: left, onward: false }, null), row(2, null, { ...right, teller: 'given' })];
  const before = { spotOnward: async () => right };
  expect(ids(await readElsewhere(framesOf(rows), before, 'f1'))).toEqual(['f1']);
  expect(await spotFor(before, row(2, null, null))).toEqual(right);
  expect(await spotFor(before, row(1, { box: left, onward: false }, null))).toEqual(left);
});

test('once it is taken back, what was read there is read again, and nothing else is', async () => {
  const rows = [row(1, null, { ...left, teller: 'given' }), row(2, null, { ...right, teller: 'camera' })];
  expect(ids(await readElsewhere(framesOf(rows), nobody, 'f1'))).toEqual(['f1']);
});

test('after a crash the frames that were not read where people pointed are found, in the order of the day', () => {
  const sharpest = { ...right, teller: 'sharpest' } as const;
  const rows = [
    row(0, null, sharpest),
    row(1, { box: left, onward: true }, sharpest),
    row(2, null, sharpest),
    row(3, null, { ...left, teller: 'given' }),
    row(4, { box: right, onward: false }, { ...left, teller: 'given' }),
    row(5, null, { ...left, teller: 'given' }),
    { ...row(6, null, { ...right, teller: 'given' }), shot: 'jug' },
    { ...row(7, null, sharpest), shot: null },
  ];
  const day = new SpotsOfTheDay();
  expect(ids(rows.filter((each) => day.isReadElsewhere(each)))).toEqual(['f1', 'f2', 'f4', 'f6']);
});
