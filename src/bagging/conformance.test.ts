import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { hasShared, sharedPath } from '../../test/shared.ts';
import { checkBag } from './index.ts';

// The BagIt conformance suite of the Library of Congress (public domain), with what it expects of each bag.
interface Expected {
  readonly bags: readonly { readonly path: string; readonly expected: string }[];
}

const { bags } = hasShared() ? expectedBags() : { bags: [] };
const folder = mkdtempSync(join(tmpdir(), 'setside-bags-'));
if (hasShared()) {
  execFileSync('tar', ['-xzf', sharedPath('reference/bagit/bagit-conformance-part.tar.gz'), '-C', folder]);
}
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function expectedBags(): Expected {
  return JSON.parse(readFileSync(sharedPath('reference/bagit/expected.json'), 'utf8'));
}

describe.skipIf(!hasShared())('the conformance suite of the format', () => {
  // Paths of Windows are refused here too.
  test.each(bags)('$path is $expected', async ({ path, expected }) => {
    const { valid, findings } = await checkBag(join(folder, path));
    expect(valid, JSON.stringify(findings)).toBe(expected.startsWith('valid'));
    if (expected === 'valid-with-warning') expect(findings).not.toEqual([]);
    if (expected === 'valid') expect(findings).toEqual([]);
    if (path.includes('out-of-scope'))
      expect(findings.map(({ finding }) => finding.code)).toContain('bag.path');
  });
});
