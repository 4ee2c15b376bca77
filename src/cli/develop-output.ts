import { readFile, stat } from 'node:fs/promises';
import { SetsideError } from '../base/index.ts';
import type { RgbSpaceName } from '../colour/index.ts';
import {
  type DevelopFileOptions,
  type OutputWish,
  profileBytesMax,
  usableProfile,
} from '../workers/index.ts';

/** What of the options says how a result is written. */
export interface OutputFlags {
  readonly format: DevelopFileOptions['format'];
  readonly space?: RgbSpaceName;
  readonly profile?: string;
  readonly depth?: 8 | 16;
  readonly profileVersion?: 2 | 4;
}

/** How results are written: `output` null is as a screen shows them; `space` is that of linear light. */
export interface OutputChoice {
  readonly format: DevelopFileOptions['format'];
  readonly output: OutputWish | null;
  readonly space: RgbSpaceName | null;
}

/** Of those that hold 16 bits as well as 8. */
const deepFormats: readonly DevelopFileOptions['format'][] = ['tiff', 'png'];

/** Errors: `bad-option` where options do not go together, `bad-profile`, and those of the file system. */
export async function outputChoice(flags: OutputFlags): Promise<OutputChoice> {
  const { format, space, profile, depth, profileVersion } = flags;
  if (space !== undefined && profile !== undefined) {
    throw wrong('--space and --profile both say what to write in.', 'Give one of them.');
  }
  if (format === 'tiff-linear') {
    if (profile !== undefined || depth === 8) {
      throw wrong(
        'Linear light is written in 16 bits of a named space.',
        'Give --format tiff for a profile or 8 bits.',
      );
    }
    return { format, output: null, space: space ?? null };
  }
  if (depth === 16 && !deepFormats.includes(format)) {
    throw wrong(
      `${format.toUpperCase()} is written in 8 bits here.`,
      'Give --format tiff or --format png for 16.',
    );
  }
  const isPlain = space === undefined && profile === undefined && depth === undefined;
  // A screen's picture has no other version of its profile.
  if (isPlain && profileVersion === undefined && format !== 'tiff' && format !== 'avif') {
    return { format, output: null, space: null };
  }
  const output: OutputWish = {
    space: profile === undefined ? (space ?? 'srgb') : await readProfile(profile),
    depth: depth ?? 8,
    ...(profileVersion === undefined ? {} : { profileVersion }),
  };
  return { format, output, space: null };
}

/** A file beyond the bound is not read at all. */
async function readProfile(path: string): Promise<Uint8Array> {
  try {
    // One byte more is told as too large by whoever looks at it.
    const { size } = await stat(path);
    const bytes = size > profileBytesMax ? new Uint8Array(profileBytesMax + 1) : await readFile(path);
    usableProfile(bytes);
    return bytes;
  } catch (thrown) {
    if (!(thrown instanceof SetsideError)) throw thrown;
    throw new SetsideError(thrown.code, `${path}: ${thrown.message}`, {
      cause: thrown,
      ...(thrown.cure === undefined ? {} : { cure: thrown.cure }),
    });
  }
}

function wrong(message: string, cure: string): SetsideError {
  return new SetsideError('bad-option', message, { cure });
}
