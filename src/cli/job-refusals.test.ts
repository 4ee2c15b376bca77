import { expect, test } from 'vitest';
import { SetsideError } from '../base/index.ts';
import { aboutJob } from './job-refusals.ts';

const refused = (code: string, job: string): Promise<unknown> =>
  aboutJob(job, Promise.reject(new SetsideError(code, 'as the station says it', { cure: 'See its calls.' })));

test.each([
  ['not-found', 'no-job', /^There is no job QM-26$/, /setside job list/],
  ['no-job', 'no-job', /^There is no job QM-26$/, /setside job list/],
  ['job-finished', 'job-finished', /^Job QM-26 is closed$/, /setside job lay-aside QM-26/],
  ['bad-job-code', 'bad-job-code', /QM-26” cannot be the code/, /letters/],
] as const)('%s names the job and the command that helps', async (code, told, message, cure) => {
  await expect(refused(code, 'QM-26')).rejects.toMatchObject({
    code: told,
    message: expect.stringMatching(message),
    cure: expect.stringMatching(cure),
  });
});

test('the tray is no job, and is said to be the tray', async () => {
  await expect(refused('bad-job-code', 'Unsorted')).rejects.toMatchObject({
    message: 'Unsorted is the tray, where frames go while no job is open',
  });
});

test('every other refusal keeps the station’s words', async () => {
  await expect(refused('bad-text', 'QM-26')).rejects.toMatchObject({ cure: 'See its calls.' });
  await expect(aboutJob('QM-26', Promise.resolve(7))).resolves.toBe(7);
});
