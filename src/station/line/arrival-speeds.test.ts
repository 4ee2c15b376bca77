import { expect, test } from 'vitest';
import type { KeepEvent } from '../../keep/index.ts';
import { ArrivalSpeeds, type FrameSeen } from './arrival-speeds.ts';

/** Kept, 8 MB in two seconds. */
const kept = (frame: string, name: string, change: Partial<KeepEvent> = {}): KeepEvent =>
  ({
    ...{
      type: 'kept',
      camera: 'cam1',
      frame,
      name,
      sizeBytes: 8_000_000,
      firstByteMs: 1000,
      lastByteMs: 3000,
    },
    ...change,
  }) as KeepEvent;
const seen = (name: string, kind: string, files: number): FrameSeen =>
  ({ name, kind, files: Array(files).fill({ name }), times: { firstViewMs: 1400 } }) as unknown as FrameSeen;

test('a camera of which nothing of size has come has no speed, and a rehearsal says nothing of the camera’s', async () => {
  const speeds = new ArrivalSpeeds();
  speeds.hear(kept('f1', 'A.XMP', { sizeBytes: 4000 }));
  speeds.hear(kept('f2', 'A.DNG', { firstByteMs: null }));
  speeds.hear(kept('f3', 'REHEARSE.JPG'));
  expect(speeds.of('cam1')).toBeNull();
  expect(await speeds.meanings(async () => null)).toEqual(new Map());
});

test('a raw that is alone in its frame says when it was seen; one with a JPEG beside it does not', async () => {
  const speeds = new ArrivalSpeeds();
  speeds.hear(kept('f1', 'A.DNG'));
  expect(speeds.of('cam1')).toBe(4_000_000);
  const alone = await speeds.meanings(async () => seen('A.DNG', 'dng', 1));
  expect(alone.get('cam1')).toMatchObject({ firstViewMs: 400, raw: { measured: true, bytes: 8_000_000 } });
  speeds.hear(kept('f1', 'A.JPG', { sizeBytes: 2_000_000 }));
  const pair = await speeds.meanings(async () => seen('A.DNG', 'dng', 2));
  expect(pair.get('cam1')).toMatchObject({
    firstViewMs: null,
    raw: { bytes: 8_000_000 },
    jpeg: { measured: true, bytes: 2_000_000 },
  });
});

test('what is no picture that is known, such as a film, is no raw', async () => {
  const speeds = new ArrivalSpeeds();
  speeds.hear(kept('f1', 'A.MOV'));
  const meanings = await speeds.meanings(async () => seen('A.MOV', 'unknown', 1));
  expect(meanings.get('cam1')?.raw).toMatchObject({ measured: false });
});
