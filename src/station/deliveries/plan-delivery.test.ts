import { expect, test } from 'vitest';
import { specifications } from '../../deliver/index.ts';
import { rehearsalPictureName } from '../../facts/index.ts';
import type { FrameRow } from '../../register/index.ts';
import { framesToDeliver } from './plan-delivery.ts';

const row = (id: string, more: Partial<FrameRow>): FrameRow =>
  ({
    id,
    job: 'QM-26',
    shot: null,
    mark: 'hero',
    purpose: 'picture',
    name: `${id}.DNG`,
    ...more,
  }) as FrameRow;

test('what is marked is delivered, page by page, and a rehearsal’s picture is not, whatever its mark', async () => {
  const pages = [
    { frames: [row('a', {}), row('t', { name: rehearsalPictureName, purpose: 'test' })], next: 'a' },
    { frames: [row('b', {}), row('c', { mark: 'out' })], next: null },
  ];
  const book = {
    rows: async ({ after }: { readonly after?: string }) =>
      pages[after === undefined ? 0 : 1] ?? expect.unreachable(),
    row: async () => null,
  };
  const social = specifications.social ?? expect.unreachable();
  const frames = await framesToDeliver(book, { code: 'QM-26', shots: [] }, social, undefined);
  expect(frames.map(({ id }) => id)).toEqual(['a', 'b']);
});
