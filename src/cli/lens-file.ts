import { readFile, stat } from 'node:fs/promises';
import { SetsideError } from '../base/index.ts';
import { lensDescription, lensStepsOf } from '../contract/index.ts';
import type { LensWish } from '../workers/index.ts';

/** A description is a handful of numbers. */
const lensBytesMax = 64 * 1024;

/** `file` (what the raw states), `none`, or the description in a file. Errors: `bad-lens`, and those of the file system. */
export async function lensOf(wish: string): Promise<LensWish> {
  if (wish === 'file' || wish === 'none') return wish;
  if ((await stat(wish)).size > lensBytesMax) throw badLens(wish, `it is larger than ${lensBytesMax} bytes`);
  const read = lensDescription.safeParse(parsed(wish, await readFile(wish, 'utf8')));
  if (read.success) return { steps: lensStepsOf(read.data) };
  const [issue] = read.error.issues;
  const at = issue?.path.join('.') ?? '';
  throw badLens(wish, `${at === '' ? '' : `${at}: `}${issue?.message ?? 'it is none'}`);
}

function parsed(path: string, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (cause) {
    throw badLens(path, 'it is no JSON', cause);
  }
}

function badLens(path: string, why: string, cause?: unknown): SetsideError {
  return new SetsideError('bad-lens', `${path} describes no lens: ${why}`, {
    cause,
    cure: 'docs/rendering.md shows one, and docs/lens.schema.json is its schema.',
  });
}
