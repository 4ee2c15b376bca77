import { expect, test } from 'vitest';
import type { LineReport } from '../../receive/index.ts';
import { sentence } from '../../words/index.ts';
import { ChangeRows } from './change-rows.ts';

const report = (camera: string | null, code: string, args: Record<string, string> = {}): LineReport => ({
  ...{ camera, address: '192.0.2.7', connection: 1, change: 'note' },
  finding: { code: `line.${code}`, args: { address: '192.0.2.7', ...args } },
});

function heard(...reports: readonly LineReport[]): string[] {
  const said: string[] = [];
  const rows = new ChangeRows(({ finding }) => void said.push(sentence(finding)));
  for (const one of reports) rows.take(one);
  return said;
}

const takenOut = (name: string): LineReport => report('cam1', 'taken-out', { name });
const gone = report('cam1', 'disconnected');
const left = 'The client at 192.0.2.7 left.';

test('a file that a camera takes out is one line at once; of many in a row the others are one line more', () => {
  const first = 'A.JPG was taken out of its folder by the camera: what came of it stays kept here.';
  expect(heard(takenOut('A.JPG'))).toEqual([first]);
  expect(heard(takenOut('A.JPG'), gone)).toEqual([first, left]);
  const second = 'B.JPG was taken out of its folder by the camera: what came of it stays kept here.';
  expect(heard(takenOut('A.JPG'), takenOut('B.JPG'), gone)).toEqual([first, second, left]);
  const many = Array.from({ length: 2000 }, (_, n) => takenOut(`N${n}.JPG`));
  expect(heard(takenOut('A.JPG'), ...many, gone)).toEqual([
    first,
    '2000 more files were taken out of their folder by the camera, N1999.JPG last: what came of them stays kept here.',
    left,
  ]);
});

test('renaming is another row than taking out, and each camera has its own', () => {
  const renamed = report('cam1', 'renamed', { name: 'A.TMP', to: 'A.JPG' });
  expect(heard(renamed, renamed, renamed, takenOut('B.JPG'))).toEqual([
    'A.TMP was renamed to A.JPG by the camera: what is kept stays as it is.',
    '2 more were renamed by the camera, A.TMP to A.JPG last: what is kept stays as it is.',
    'B.JPG was taken out of its folder by the camera: what came of it stays kept here.',
  ]);
  const other = report('cam2', 'taken-out', { name: 'C.JPG' });
  expect(heard(takenOut('A.JPG'), other, takenOut('B.JPG'), report(null, 'connected'))).toHaveLength(3);
});
