import { appendFile, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { Diary, diaryLine, readDiary } from './diary.ts';

const day = 86_400_000;
const noon = Date.UTC(2026, 10, 25, 12);
let home: string;
let nowMs: number;
const failures: unknown[] = [];

const open = (): Promise<Diary> =>
  Diary.open(
    home,
    () => nowMs,
    (thrown) => failures.push(thrown),
  );
const line = (camera: string | null, n: number): ReturnType<typeof diaryLine> =>
  diaryLine(nowMs, camera, '192.0.2.7', { code: 'line.upload-kept', args: { name: `X${n}.DNG`, bytes: n } });

beforeEach(async () => {
  home = await mkdtemp(join(tmpdir(), 'setside-diary-'));
  nowMs = noon;
});

afterEach(async () => {
  await rm(home, { recursive: true, force: true });
  expect(failures.splice(0)).toEqual([]);
});

test('lines come back newest first, page by page and over days, for one camera with what strangers did', async () => {
  const diary = await open();
  for (let n = 1; n <= 3; n++) diary.note(line('cam1', n));
  diary.note(line('cam2', 4));
  await diary.close();
  nowMs += day;
  const next = await open();
  next.note(line(null, 5));
  next.note(line('cam1', 6));
  await next.close();

  const first = await readDiary(home, { camera: 'cam1', limit: 3 });
  expect(first.lines.map(({ finding }) => finding.args.bytes)).toEqual([6, 5, 3]);
  const second = await readDiary(home, { camera: 'cam1', limit: 3, before: first.next ?? '' });
  expect(second.lines.map(({ finding }) => finding.args.bytes)).toEqual([2, 1]);
  expect(second.next).toBe(null);
});

test('for one camera strangers’ coming and going is left out, and they have a third of a page at most', async () => {
  const diary = await open();
  const strange = (code: string) => diaryLine(nowMs, null, '192.0.2.9', { code, args: {} });
  for (let n = 1; n <= 6; n++) diary.note(line('cam1', n));
  for (let n = 1; n <= 50; n++) {
    for (const code of ['line.connected', 'line.wrong-login', 'line.disconnected']) diary.note(strange(code));
  }
  await diary.close();
  const codes = async (camera: string | undefined, limit: number): Promise<string[]> =>
    (await readDiary(home, { camera, limit })).lines.map(({ finding }) => finding.code.slice('line.'.length));
  expect(await codes('cam1', 6)).toEqual([
    ...['wrong-login', 'wrong-login', 'upload-kept', 'upload-kept', 'upload-kept', 'upload-kept'],
  ]);
  expect(await codes('cam1', 1)).toEqual(['upload-kept']);
  expect(await codes(undefined, 3)).toEqual(['disconnected', 'wrong-login', 'connected']);
});

test('days of more than 30 days ago are forgotten, and other files are left alone', async () => {
  await mkdir(join(home, 'diary'));
  for (const name of ['2026-10-25.jsonl', '2026-10-26.jsonl', 'notes.txt'])
    await writeFile(join(home, 'diary', name), '');
  const diary = await open();
  await diary.close();
  expect((await readdir(join(home, 'diary'))).sort()).toEqual(['2026-10-26.jsonl', 'notes.txt']);
});

test('a stranger may fill so much of a day, and a camera’s lines are written all the same', async () => {
  const diary = await open();
  for (let n = 1; n <= 10_050; n++) diary.note(line(null, n));
  diary.note(line('cam1', 1));
  await diary.close();
  const text = await readFile(join(home, 'diary/2026-11-25.jsonl'), 'utf8');
  expect(text.trimEnd().split('\n')).toHaveLength(10_001);
});

test('a line that a crash cut is passed over, and so is a day that is no file', async () => {
  const diary = await open();
  diary.note(line('cam1', 1));
  await diary.close();
  await appendFile(join(home, 'diary/2026-11-25.jsonl'), '{"at":"2026-11-2');
  await mkdir(join(home, 'diary/2026-11-24.txt'));
  expect((await readDiary(home, { limit: 10 })).lines).toHaveLength(1);
  expect(await readDiary(join(home, 'nowhere'), { limit: 10 })).toEqual({ lines: [], next: null });
});
