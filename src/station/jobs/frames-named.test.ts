import { expect, test } from 'vitest';
import { applyJobChoice, planNewJob } from '../../job/index.ts';
import { assertFramesThere, withoutStrangeFrames } from './frames-named.ts';
import { importShots } from './import-shots.ts';

const has = async (frame: string): Promise<boolean> => frame === 'f1';

test('a shot newly names frames that are there; what it named already is not asked about', async () => {
  await assertFramesThere(has, undefined, { reference: 'f1', layout: null });
  await assertFramesThere(has, { reference: 'gone' }, { reference: 'gone' });
  await expect(assertFramesThere(has, { reference: 'f1' }, { reference: 'f2' })).rejects.toMatchObject({
    code: 'no-frame',
  });
  await expect(assertFramesThere(has, undefined, { layout: 'f2' })).rejects.toMatchObject({
    code: 'no-frame',
  });
});

test('a list is taken without the frames of another station, and they are told', async () => {
  const listed = { id: null, name: 'Mug' };
  const { shots, findings } = await withoutStrangeFrames(has, [
    { ...listed, line: 2, says: { reference: 'f1', layout: 'f2', heroes: 2 } },
  ]);
  expect(shots).toEqual([{ ...listed, line: 2, says: { reference: 'f1', heroes: 2 } }]);
  expect(findings).toEqual([
    { code: 'shot-list.no-such-frame', args: { line: 2, column: 'layout', frame: 'f2' } },
  ]);
});

test('a list of which there is only the header says that it holds no shot', async () => {
  const jobs = planNewJob(new Map(), { code: 'A' }).reduce(applyJobChoice, new Map());
  const codesOf = async (text: string): Promise<string[]> => {
    const bytes = new TextEncoder().encode(text);
    const { report } = await importShots(jobs, 'A', { kind: 'csv', bytes }, has);
    return report.findings.map(({ code }) => code);
  };
  expect(await codesOf('name,heroes\n')).toEqual(['shot-list.no-lines']);
  expect(await codesOf('')).toEqual(['shot-list.empty']);
  expect(await codesOf('name\nMug\n')).toEqual([]);
});

test('an import says so of CSV and of JSON', async () => {
  const jobs = planNewJob(new Map(), { code: 'A' }).reduce(applyJobChoice, new Map());
  const bytes = new TextEncoder().encode('name,reference\nMug,f2\nJug,f1\n');
  const csv = await importShots(jobs, 'A', { kind: 'csv', bytes }, has);
  const shot = { name: 'Mug', reference: 'f2' };
  const json = await importShots(
    jobs,
    'A',
    { kind: 'json', list: { shots: [{ line: 1, shot }], bad: [], unknown: [], findings: [] } },
    has,
  );
  for (const { report } of [csv, json])
    expect(report.findings.map(({ code }) => code)).toEqual(['shot-list.no-such-frame']);
  expect(csv.plan.choices).toMatchObject([
    { shot: { name: 'Mug', reference: null } },
    { shot: { name: 'Jug', reference: 'f1' } },
  ]);
});
