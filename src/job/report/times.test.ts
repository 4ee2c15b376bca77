import { expect, test } from 'vitest';
import { reportFrame } from './testing/report-frame.ts';
import { type ReportClock, reportTimes } from './times.ts';

const said: ReportClock[] = [{ camera: 'cam1', plusMinusMs: 500, said: true }];
const step = (times: ReturnType<typeof reportTimes>, name: string) =>
  times.steps.find((each) => each.step === name);
const codes = (times: ReturnType<typeof reportTimes>): string[] => times.doubts.map(({ code }) => code);

/** Frames whose first view came 1, 2, 3 … s after the shutter, and whose rendering 10 s after that. */
const frames = (count: number) =>
  Array.from({ length: count }, (_, at) => {
    const shutterMs = at * 60_000;
    const viewMs = shutterMs + (at + 1) * 1000;
    return reportFrame(`F${at}`, {
      shutter: { atMs: shutterMs, offsetKnown: true, subSecondsKnown: true },
      times: {
        firstByteMs: shutterMs + 400,
        firstViewMs: viewMs,
        keptMs: viewMs + 500,
        renderedMs: viewMs + 10_000,
      },
    });
  });

test('waits are told as percentiles, from the shutter and from the first byte', () => {
  const times = reportTimes(frames(101), said);
  // 1 … 101 s: rank 0.5 * 100 is the 51st, 0.9 * 100 the 91st, 0.99 * 100 the 100th (Hyndman and Fan 1996, definition 7, by hand).
  expect(step(times, 'shutter-view')).toMatchObject({ p50S: 51, p90S: 91, p99S: 100, maxS: 101 });
  expect(step(times, 'shutter-rendering')).toMatchObject({ p50S: 61, p90S: 101, p99S: 110, maxS: 111 });
  expect(step(times, 'byte-view')?.p50S).toBeCloseTo(50.6, 9);
  expect(step(times, 'shutter-view')?.seconds.slice(0, 3)).toEqual([1, 2, 3]);
});

test('a share that too few frames can tell is not told', () => {
  expect(step(reportTimes(frames(99), said), 'shutter-view')).toMatchObject({ p90S: 89.2, p99S: null });
  expect(step(reportTimes(frames(9), said), 'shutter-view')).toMatchObject({ p50S: 5, p90S: null });
  expect(step(reportTimes(frames(1), said), 'shutter-view')).toMatchObject({ p50S: null, maxS: 1 });
  expect(step(reportTimes([], said), 'shutter-view')).toMatchObject({ seconds: [], maxS: null });
});

test('how the shutter’s moment is known is told, for each camera that it counts for', () => {
  const [one, two, three] = frames(3);
  const others = [
    { ...(two ?? reportFrame('')), camera: 'cam2' },
    { ...(three ?? reportFrame('')), camera: 'cam3' },
  ];
  const clocks = [...said, { camera: 'cam2', plusMinusMs: null, said: true }];
  expect(reportTimes([one ?? reportFrame(''), ...others], clocks).doubts).toEqual([
    { code: 'report.clock-compared', args: { camera: 'cam1', seconds: 0.5 } },
    { code: 'report.clock-said', args: { camera: 'cam2' } },
    { code: 'report.clock-not-compared', args: { camera: 'cam3' } },
  ]);
});

test('a picture that was here before it was taken proves its camera’s clock to be ahead: none of its times counts', () => {
  const good = frames(3);
  const early = reportFrame('E', {
    camera: 'cam2',
    shutter: { atMs: 100_000, offsetKnown: true, subSecondsKnown: true },
    times: { firstByteMs: 97_500, firstViewMs: 98_000, keptMs: 99_000, renderedMs: 101_000 },
  });
  const late = reportFrame('L', {
    camera: 'cam2',
    shutter: { atMs: 200_000, offsetKnown: true, subSecondsKnown: true },
    times: { firstByteMs: 200_100, firstViewMs: 200_200, keptMs: 200_300, renderedMs: 200_400 },
  });
  const times = reportTimes([...good, early, late], said);
  expect(step(times, 'shutter-view')?.seconds).toEqual([1, 2, 3]);
  expect(step(times, 'byte-view')?.seconds).toHaveLength(5);
  expect(times.doubts).toContainEqual({
    code: 'report.clock-ahead',
    args: { camera: 'cam2', seconds: 2.5 },
  });
});

test('a picture that is early by no more than its camera’s clock is known proves nothing', () => {
  const early = reportFrame('E', {
    shutter: { atMs: 1000, offsetKnown: true, subSecondsKnown: true },
    times: { firstByteMs: 600, firstViewMs: 900, keptMs: 1000, renderedMs: 1100 },
  });
  expect(codes(reportTimes([early], said))).not.toContain('report.clock-ahead');
  expect(codes(reportTimes([early], []))).toContain('report.clock-ahead');
});

test('whole seconds, an assumed zone, no time at all and a card are told with how many frames', () => {
  const times = reportTimes(
    [
      reportFrame('A', { shutter: { atMs: 0, offsetKnown: false, subSecondsKnown: false } }),
      reportFrame('B', { shutter: null }),
      reportFrame('C', { fromFolder: true }),
      reportFrame('D', { fromFolder: true, shutter: null }),
    ],
    said,
  );
  expect(times.doubts.filter(({ args }) => 'count' in args)).toEqual([
    { code: 'report.whole-seconds', args: { count: 1 } },
    { code: 'report.zone-assumed', args: { count: 1 } },
    { code: 'report.no-shutter', args: { count: 1 } },
    { code: 'report.from-folder', args: { count: 2 } },
  ]);
  expect(codes(times)).not.toContain('report.clock-ahead');
  expect(step(times, 'shutter-view')?.seconds).toHaveLength(1);
});
