import { expect, test } from 'vitest';
import { latelyLines, latelyLinesMax, latelyOf, latelyOfAll } from './lately.ts';

const lines = (...codes: string[]) =>
  codes.map((code, second) => ({
    at: `2026-11-25T10:00:0${second}.000Z`,
    camera: 'cam1',
    finding: { code: `line.${code}`, args: {} },
  }));
const shown = (...codes: string[]): string[] =>
  latelyOf(lines(...codes)).map(({ finding }) => finding.code.slice('line.'.length));

test('a wrong password is not pushed away by the uploads after it', () => {
  expect(shown('wrong-login', 'connected', 'logged-in', 'upload-started', 'upload-kept')).toEqual([
    'wrong-login',
    'logged-in',
    'upload-started',
    'upload-kept',
  ]);
});

test('of more troubles than there is room for, the newest are shown, in their order', () => {
  const broken = ['idle', 'upload-broken-off', 'wrong-login', 'upload-kept', 'cannot-dial', 'not-sftp'];
  expect(shown(...broken)).toEqual(['upload-broken-off', 'wrong-login', 'cannot-dial', 'not-sftp']);
  expect(latelyLines).toBe(4);
});

test('that a client came or left is told only where nothing else happened, and once', () => {
  expect(shown('connected', 'logged-in', 'disconnected', 'connected')).toEqual(['logged-in']);
  expect(shown('connected', 'disconnected', 'connected')).toEqual(['connected']);
});

const line = (camera: string | null, second: number, code = 'upload-kept') => ({
  at: `2026-11-25T10:00:${String(second).padStart(2, '0')}.000Z`,
  camera,
  finding: { code: `line.${code}`, args: {} },
});

test('of several cameras each is shown, newest first, and what a stranger tried is told once', () => {
  const stranger = line(null, 5, 'wrong-login');
  const busy = Array.from({ length: 12 }, (_, at) => line('cam1', 20 + at));
  const quiet = [line('cam2', 3, 'idle')];
  const shown = latelyOfAll([{ log: [stranger, ...busy] }, { log: [...quiet, stranger] }]);
  expect(shown.map(({ camera, at }) => [camera, Number(at.slice(17, 19))])).toEqual([
    ['cam1', 31],
    ['cam1', 30],
    ['cam1', 29],
    ['cam1', 28],
    [null, 5],
    ['cam2', 3],
  ]);
});

test('with twenty cameras no more is shown than is read in one look', () => {
  const cameras = Array.from({ length: 20 }, (_, at) => ({
    log: [line(`cam${at}`, at), line(`cam${at}`, at)],
  }));
  expect(latelyOfAll(cameras)).toHaveLength(latelyLinesMax);
});

test('a file that breaks off again and again hides no other trouble: its newest line says how often', () => {
  const broke = (name: string, second: number) => ({
    ...line('cam1', second),
    finding: { code: 'line.upload-broken-off', args: { name, times: second } },
  });
  const log = [line(null, 1, 'wrong-login'), broke('B', 2), ...[3, 4, 5, 6, 7].map((at) => broke('A', at))];
  expect(latelyOf(log).map(({ finding }) => finding.args.times ?? finding.code)).toEqual([
    'line.wrong-login',
    2,
    7,
  ]);
});
