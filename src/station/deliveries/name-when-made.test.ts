import { expect, test } from 'vitest';
import { specificationNamed } from '../../deliver/index.ts';
import { type Asked, type DeliveryEntry, DeliveryLog, type DeliveryOrder } from './delivery-log.ts';
import { DeliveryRun } from './delivery-run.ts';

const specification = specificationNamed('web-shop')?.specification;
if (specification === undefined) throw new Error('the library has a web shop');

const values = { job: 'QM', shot: null, counter: null, camera: 'cam1', date: '2026-11-05', name: 'A' };
const frame = (id: number) => ({
  ...{ frame: `f-${id}`, file: `QM_000${id}.jpg`, known: null },
  naming: { ...values, number: `000${id}` },
});
const order: DeliveryOrder = {
  ...{ id: 'd-1', job: 'QM', folder: 'Web', startedMs: 1, specification, asked: specification as Asked },
  ...{ sheet: null, template: '{job}_{number}', frames: [1, 2, 3, 4].map(frame) },
};

const made = (id: number, file: string): DeliveryEntry => ({
  made: {
    ...{
      file,
      sha256: '00',
      bytes: 4,
      widthPx: 1,
      heightPx: 1,
      frame: `f-${id}`,
      shot: '',
      original: 'A.DNG',
    },
    ...{ originalSha256: '00', look: '', lookSha256: '', findings: [] },
  },
});
const gap = (id: number): DeliveryEntry => ({
  gap: { frame: `f-${id}`, original: 'A.DNG', finding: { code: 'deliver.no-original', args: {} } },
});

function next(entries: readonly DeliveryEntry[], more: Partial<DeliveryOrder> = {}, all = entries) {
  const run = new DeliveryRun(
    '/d',
    { ...order, ...more },
    new DeliveryLog('/d.jsonl'),
    entries,
    () => 0,
    all,
  );
  const found = run.nextFrame();
  return found === null ? null : [found.frame, found.file];
}

test('a number in names counts files: a frame of which none could be made leaves no gap', () => {
  expect(next([])).toEqual(['f-1', 'QM_0001.jpg']);
  const begun = [made(1, 'QM_0001.jpg'), gap(2)];
  expect(next(begun)).toEqual(['f-3', 'QM_0002.jpg']);
  expect(next([...begun, made(3, 'QM_0002.jpg')])).toEqual(['f-4', 'QM_0003.jpg']);
});

test('a file that was lost when a station was killed has its name again, and no later one takes it', () => {
  const all = [made(1, 'QM_0001.jpg'), gap(2), made(3, 'QM_0002.jpg')];
  const without = (id: number) => all.filter((each) => !('made' in each && each.made.frame === `f-${id}`));
  expect(next(without(1), {}, all)).toEqual(['f-1', 'QM_0001.jpg']);
  expect(next(without(3), {}, all)).toEqual(['f-3', 'QM_0002.jpg']);
});

test('names without a number, and those of an earlier edition, are those that were said before', () => {
  expect(next([gap(1)], { template: '{job}_{name}' })).toEqual(['f-2', 'QM_0002.jpg']);
  expect(next([gap(1)], { template: null })).toEqual(['f-2', 'QM_0002.jpg']);
});
