import { expect, test } from 'vitest';
import { frameNamed } from './frame-named.ts';

const frames = [
  { id: 'f1', name: 'QMST0001.DNG', camera: 'cam1' },
  { id: 'f2', name: 'QMST0002.DNG', camera: 'cam1' },
  { id: 'f3', name: 'QMST0002.DNG', camera: 'cam2' },
];

test('a frame is meant by its name, with and without the extension, in any case, and by its id', () => {
  for (const words of ['QMST0001.DNG', 'qmst0001', 'f1'])
    expect(frameNamed('QM', frames, words).id).toBe('f1');
  expect(frameNamed('QM', frames, 'f3').camera).toBe('cam2');
});

test('words that mean several are refused with the ids of all, and those that mean none', () => {
  expect(() => frameNamed('QM', frames, 'QMST0002')).toThrow(
    expect.objectContaining({ code: 'several-frames', cure: 'Say which: f2 (cam1), f3 (cam2).' }),
  );
  expect(() => frameNamed('QM', frames, 'QMST0009')).toThrow(expect.objectContaining({ code: 'no-frame' }));
});
