import { expect, test } from 'vitest';
import { home, openSimulatedHome, plain, send, sized } from './testing/simulated-home.ts';
import { type VerifyProgress, verifyOriginals } from './verify.ts';

const original = (name: string): string => `jobs/QM-26/originals/cam1/${name}`;

test('K10.1 every original is read again, and a good home has nothing to say', async () => {
  const { keep, disk } = await openSimulatedHome();
  await send(keep, '/A.DNG', sized(120));
  await send(keep, '/B.txt', plain('b'));
  await send(keep, '/C.DNG', sized(100).subarray(0, 50), 'reset');
  const seen: VerifyProgress[] = [];
  expect(await verifyOriginals(home, (progress) => seen.push(progress), disk)).toEqual({
    files: 2,
    bytes: 121,
    incoming: [{ why: 'waiting', files: 1, bytes: 50 }],
    findings: [],
    replaced: [],
    inOnePlace: null,
    bad: [],
    seq: expect.any(Number),
  });
  expect(seen).toEqual([
    { doneFiles: 0, files: 2, doneBytes: 0, bytes: 121, original: original('A.DNG') },
    { doneFiles: 1, files: 2, doneBytes: 120, bytes: 121, original: original('B.txt') },
  ]);
});

test('K10.1 missing, shortened and altered originals are named, each by its own finding', async () => {
  const { keep, disk } = await openSimulatedHome();
  for (const name of ['gone', 'short', 'altered', 'good'])
    await send(keep, `/${name}`, plain(`this is ${name}`));
  await keep.close();
  disk.put(`${home}/${original('short')}`, plain('this is'));
  disk.put(`${home}/${original('altered')}`, plain('this is alterEd'));
  await disk.rename(`${home}/${original('gone')}`, `${home}/elsewhere`);
  const { findings } = await verifyOriginals(home, undefined, disk);
  expect(findings.map(({ code, args }) => [code, args.original])).toEqual([
    ['keep.original-missing', original('gone')],
    ['keep.original-size', original('short')],
    ['keep.original-altered', original('altered')],
  ]);
});

test('K10.1 an original that the disk cannot read is named and the others are read all the same', async () => {
  const { keep, disk } = await openSimulatedHome();
  for (const name of ['a', 'b']) await send(keep, `/${name}`, plain(name));
  disk.refuse((step) => (step === `read ${home}/${original('a')}` ? 'EIO' : null));
  const { findings, files } = await verifyOriginals(home, undefined, disk);
  expect(files).toBe(2);
  expect(findings).toMatchObject([{ code: 'keep.original-unreadable', args: { original: original('a') } }]);
});
