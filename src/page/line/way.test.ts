import { expect, test } from 'vitest';
import type { LineCheck, LineFinding } from '../../contract/index.ts';
import { sampleStation } from '../testing/sample-frame.ts';
import { sampleLine } from '../testing/sample-line.ts';
import { placeOf, wayOf, wayPlaces } from './way.ts';

const when = (moment: string): string => `at ${moment.slice(11, 16)}`;
const finding = (
  code: string,
  weight: LineFinding['weight'],
  at: 'camera' | 'station' | 'network',
): LineFinding => ({
  ...{ code, weight, sure: 'certain', camera: null, evidence: [] },
  cause: { code, args: {} },
  cures: [{ finding: { code: 'line-cure.none', args: {} }, commands: [], at }],
});
const pieces = (change: Partial<LineCheck>, connected = false) => {
  const [camera] = sampleStation().cameras;
  if (camera === undefined) throw new Error('expected the sample station to have a camera');
  return wayOf({ ...sampleLine, ...change }, sampleStation({ cameras: [{ ...camera, connected }] }), {
    when,
  });
};
const states = (change: Partial<LineCheck>): string[] => pieces(change).map(({ state }) => state);

test('the pieces stand in the order a frame passes them', () => {
  expect(pieces({}).map(({ place }) => place)).toEqual(['camera', 'air', 'router', 'computer', 'disk']);
});

test('what no camera has passed is not called open', () => {
  const nobody = sampleLine.cameras.map((camera) => ({ ...camera, lastSeen: null, bytesPerSecond: null }));
  expect(states({ cameras: nobody })).toEqual(['unknown', 'unknown', 'unknown', 'open', 'open']);
  expect(states({})).toEqual(['open', 'open', 'open', 'open', 'open']);
});

test.each([
  ['line-check.wrong-password', 'camera', 'camera'],
  ['line-check.weak-line', 'network', 'air'],
  ['line-check.address-changed', 'camera', 'computer'],
  ['line-check.passive-shut', 'station', 'computer'],
  ['line-check.disk-full', 'station', 'disk'],
  ['line-check.of-tomorrow', 'network', 'router'],
] as const)('%s, mended %s, lies at the %s', (code, at, place) => {
  expect(placeOf(finding(code, 'shut', at))).toBe(place);
  const shut = states({ findings: [finding(code, 'shut', at)] });
  expect(shut.filter((state) => state === 'shut')).toHaveLength(1);
  expect(shut[wayPlaces.indexOf(place)]).toBe('shut');
});

test('a camera was last here when it last gave any sign of life', () => {
  const [first] = sampleStation().cameras;
  if (first === undefined) throw new Error('expected the sample station to have a camera');
  const cameras = [{ ...first, connected: false, lastSeen: '2026-10-01T08:03:30.000Z' }];
  const [camera] = wayOf(sampleLine, sampleStation({ cameras }), { when });
  expect(camera?.lines).toEqual(['cam1 was last here at 08:03.']);
});

test('of several findings at one piece the gravest is told, and a note alone leaves it open', () => {
  const weak = finding('line-check.weak-line', 'weak', 'network');
  const apart = finding('line-check.kept-apart', 'shut', 'network');
  const [, air] = pieces({ findings: [weak, apart] });
  expect(air).toMatchObject({ state: 'shut', lines: [expect.stringContaining('keep its devices apart')] });
  const note = finding('line-check.address-dealt-out', 'note', 'network');
  expect(states({ findings: [note] })).not.toContain('weak');
});

test('the name by which the station is told on the network stands with its addresses', () => {
  expect(pieces({ mdns: 'setside.local' })[3]?.lines.at(-1)).toBe('Its name on the network: setside.local.');
});

test('a piece says what is known of it', () => {
  const text = pieces({}, true).map(({ lines }) => lines.join(' '));
  expect(text).toEqual([
    'cam1 connected.',
    'Files came at 4.0 MB a second.',
    'The router is 192.168.7.1. It dealt out this computer’s address until at 20:04: reserve it there.',
    '192.168.7.20 Listens: FTP 2121, FTPS 2990, SFTP 2222.',
    '500.0 GB free. It takes 480.0 MB a second.',
  ]);
});
