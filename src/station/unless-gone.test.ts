import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { unlessGone } from './unless-gone.ts';

const failed = (): Promise<never> =>
  Promise.reject(Object.assign(new Error('ENOENT: no such file'), { code: 'ENOENT' }));
const at = (path: string) => async () => ({ name: 'A.DNG', path });

test('a picture of an original that is gone is none, with a sentence for it', async () => {
  expect(await unlessGone(failed(), at(join(tmpdir(), 'setside-nothing', 'A.DNG')))).toEqual({
    kind: 'none',
    finding: { code: 'picture.original-gone', args: { name: 'A.DNG' } },
  });
});

test('what fails while the original is there, or where there is none, fails', async () => {
  await expect(unlessGone(failed(), at(tmpdir()))).rejects.toThrow('ENOENT');
  await expect(unlessGone(failed(), async () => null)).rejects.toThrow('ENOENT');
  expect(await unlessGone(Promise.resolve(null), at(tmpdir()))).toBeNull();
});
