import { lstat } from 'node:fs/promises';
import { errorCode } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';

/**
 * What is made of a frame's original; where that fails since the original is gone, the sentence for it. Whatever else
 * fails, does so. The frame and the house tell of the loss: each look at the picture need not.
 */
export async function unlessGone<Answer>(
  answer: Promise<Answer>,
  original: () => Promise<{ readonly name: string; readonly path: string } | null>,
): Promise<Answer | { readonly kind: 'none'; readonly finding: Finding }> {
  try {
    return await answer;
  } catch (thrown) {
    const file = await original();
    if (file === null || !(await isGone(file.path))) throw thrown;
    return { kind: 'none', finding: { code: 'picture.original-gone', args: { name: file.name } } };
  }
}

async function isGone(path: string): Promise<boolean> {
  return lstat(path).then(
    () => false,
    (thrown: unknown) => ['ENOENT', 'ENOTDIR'].includes(errorCode(thrown)),
  );
}
