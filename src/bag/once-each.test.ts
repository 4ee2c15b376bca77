import { expect, test } from 'vitest';
import { onceEach } from './once-each.ts';

const altered = (file: string, path: string) => ({
  weight: 'bad' as const,
  finding: { code: 'bag.altered', args: { path, file } },
});

test('a file that is wrong by two manifests is told once, with both of them', () => {
  expect(
    onceEach([
      altered('manifest-sha256.txt', 'data/a'),
      altered('manifest-sha256.txt', 'data/b'),
      altered('manifest-sha512.txt', 'data/a'),
    ]),
  ).toEqual([
    altered('manifest-sha256.txt, manifest-sha512.txt', 'data/a'),
    altered('manifest-sha256.txt', 'data/b'),
  ]);
});

test('what no list told, or another code tells, stays by itself', () => {
  const oxum = { weight: 'bad' as const, finding: { code: 'bag.oxum', args: { files: 1 } } };
  const missing = {
    ...altered('m', 'data/a'),
    finding: { code: 'bag.missing', args: { path: 'data/a', file: 'm' } },
  };
  expect(onceEach([oxum, altered('m', 'data/a'), missing])).toEqual([oxum, altered('m', 'data/a'), missing]);
});
