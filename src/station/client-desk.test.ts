import { beforeEach, expect, test } from 'vitest';
import { errorCode } from '../base/index.ts';
import type { Frame, StationEvent } from '../contract/index.ts';
import type { Job } from '../job/index.ts';
import { sampleFrame } from '../serve/testing/sample-frame.ts';
import { createClientDesk } from './client-desk.ts';

let frames: Map<string, Frame>;
let told: StationEvent[];
let desk: ReturnType<typeof createClientDesk>;

beforeEach(() => {
  const rendered = sampleFrame().picture;
  frames = new Map();
  for (const [id, job] of [
    ['mug', 'POTS'],
    ['lamp', 'LAMPS'],
  ] as const)
    frames.set(id, sampleFrame({ id, job, mark: 'none', purpose: 'picture', picture: rendered }));
  told = [];
  const known = new Set(['POTS', 'LAMPS']);
  desk = createClientDesk({
    book: { frame: async (id) => frames.get(id) ?? null },
    jobs: { job: (code) => (known.has(code) ? ({ code } as Job) : null) },
    events: { publish: (event) => told.push(event) },
  });
});

const change = (id: string, parts: Partial<Frame>): void => {
  const frame = frames.get(id);
  if (frame !== undefined) frames.set(id, { ...frame, ...parts });
};
const refusal = (asked: Promise<unknown>): Promise<string> =>
  asked.then(
    () => 'none',
    (thrown) => String(errorCode(thrown)),
  );

test('what is said of a screen is told to every page, and what was left out stays', async () => {
  await desk.showClient({ job: 'POTS', frame: 'mug' });
  await desk.showClient({ job: 'POTS', crop: { width: 1, height: 1 }, copySpace: 'left' });
  const screen = { job: 'POTS', frame: 'mug', crop: { width: 1, height: 1 }, copySpace: 'left' };
  expect(await desk.clientScreens()).toEqual([screen]);
  expect(told.at(-1)).toEqual({ type: 'client', screen });
  await desk.showClient({ job: 'POTS', frame: null });
  expect(await desk.clientScreens()).toEqual([{ ...screen, frame: null }]);
});

test('each job has its own screen, and none shows the frame of another', async () => {
  expect(await refusal(desk.showClient({ job: 'POTS', frame: 'lamp' }))).toBe('no-frame');
  expect(await refusal(desk.showClient({ job: 'NOPE' }))).toBe('no-job');
  expect(await refusal(desk.showClient({ job: 'unsorted', copySpace: 'top' }))).toBe('none');
  await desk.showClient({ job: 'POTS', frame: 'mug' });
  await desk.showClient({ job: 'LAMPS', frame: 'lamp' });
  change('lamp', { job: 'POTS' });
  expect((await desk.clientScreens()).map(({ job, frame }) => [job, frame])).toEqual([
    ['unsorted', null],
    ['POTS', 'mug'],
    ['LAMPS', null],
  ]);
});

test.each<[string, Partial<Frame>]>([
  ['put aside', { mark: 'out' }],
  ['a target', { purpose: 'target' }],
  ['nothing to see', { picture: { state: 'none' } }],
])('a frame that is %s is not shown, and held no longer', async (_why, parts) => {
  await desk.showClient({ job: 'POTS', frame: 'mug' });
  change('mug', parts);
  expect((await desk.clientScreens())[0]?.frame).toBeNull();
  expect(await refusal(desk.showClient({ job: 'POTS', frame: 'mug' }))).toBe('not-for-the-client');
});
