import { createHash } from 'node:crypto';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { specificationNamed } from '../../deliver/index.ts';
import { deliverFrame, type FrameMakers } from './deliver-frame.ts';

let root = '';
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'setside-deliver-frame-'));
  await mkdir(join(root, 'out'));
  await mkdir(join(root, 'home/jobs'), { recursive: true });
  await mkdir(join(root, 'two/jobs'), { recursive: true });
});
afterEach(() => rm(root, { recursive: true, force: true }));

const sent = 'what the camera sent';
// Node's crypto (FIPS 180-4) over what was sent.
const sha256 = createHash('sha256').update(sent).digest('hex');
const path = 'jobs/A.JPG';

/** A frame whose one original is kept in the home, with a copy in a second place; making its file ends as is said. */
function deliver(picture: unknown, makes: () => never): ReturnType<typeof deliverFrame> {
  const specification = specificationNamed('social')?.specification;
  if (specification === undefined) throw new Error('the library has a specification for social media');
  const file = {
    ...{ arrival: 'a1', name: 'A.JPG', viewPath: '/A.JPG', path, incoming: 'x', sizeBytes: sent.length },
    ...{ sha256, state: 'whole', hidden: false, copies: [{ folder: join(root, 'two'), otherDevice: true }] },
  };
  const row = { id: 'f1', name: 'A.JPG', shot: null, kind: 'jpeg', picture, files: [file] };
  // Only what is read of a row, of its limits and of the makers.
  const makers = {
    homePath: join(root, 'home'),
    book: { row: async () => row, limits: () => ({ look: { name: '', compiled: null }, balance: null }) },
    renderings: { fullSize: makes, picture: makes },
    pool: { render: makes, surround: makes, finish: makes, prove: makes },
    writer: { write: makes, close: makes },
  } as unknown as FrameMakers;
  const folder = join(root, 'out');
  const words = { fields: [] } as unknown as Parameters<typeof deliverFrame>[1]['words'];
  const wish = { frame: 'f1', file: 'a.jpg', specification, words, folder, making: join(folder, 'making') };
  return deliverFrame(makers, wish, new AbortController().signal);
}

function fails(code: string): () => never {
  return () => {
    throw Object.assign(new Error('it failed'), { code });
  };
}

const size = { width: 1, height: 1 };
const rendered = {
  state: 'rendered',
  ...size,
  source: 'raster',
  look: '',
  original: { ...size, toOriginal: null },
  version: 1,
};
const never = fails('never');

test('an original that differs from what was kept is not delivered where its copy is no better, and is named', async () => {
  await writeFile(join(root, 'home', path), 'scratched');
  await writeFile(join(root, 'two', path), 'scratched too');
  expect(await deliver(rendered, never)).toMatchObject({
    gap: {
      frame: 'f1',
      original: 'A.JPG',
      finding: { code: 'deliver.damaged-original', args: { folder: join(root, 'two') } },
    },
  });
});

test('an original that is gone, with no copy there either, is a gap that says so', async () => {
  expect(await deliver(rendered, never)).toMatchObject({
    gap: { finding: { code: 'deliver.missing-original', args: { name: 'A.JPG' } } },
  });
});

test('a frame that is not rendered yet is a gap, and its original is not read', async () => {
  expect(await deliver({ state: 'none' }, never)).toMatchObject({
    gap: { finding: { code: 'deliver.not-rendered', args: { name: 'A.JPG' } } },
  });
});

test('where the home fails the file is made of a good copy; what goes wrong with one file is a gap, a full disk stops all', async () => {
  await writeFile(join(root, 'two', path), sent);
  expect(await deliver(rendered, fails('bad-picture'))).toMatchObject({
    gap: { finding: { code: 'deliver.failed', args: { name: 'A.JPG', why: 'bad-picture' } } },
  });
  await expect(deliver(rendered, fails('ENOSPC'))).rejects.toMatchObject({ code: 'ENOSPC' });
});
