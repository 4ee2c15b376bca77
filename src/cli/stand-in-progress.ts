import type { WriteStream } from 'node:tty';
import type { Finding } from '../facts/index.ts';
import { sentence } from '../words/index.ts';

/** Steps that follow each other many times a second and belong on one line that is written over. */
const bars = new Set(['stand-in.rendering', 'stand-in.sending']);

/**
 * Shows progress for a person: a bar that is written over on a terminal, and one line for each finished step. Where
 * the output is no terminal the bars are left out; that the first picture takes its time is said on both.
 */
export function showProgress(stream: WriteStream): (progress: Finding) => void {
  let hasDrawn = false;
  return (progress) => {
    if (progress.code === 'stand-in.rendering' && !hasDrawn) {
      hasDrawn = true;
      stream.write(`${sentence({ code: 'stand-in.first-picture', args: {} })}\n`);
    }
    const line = sentence(progress);
    if (!bars.has(progress.code)) {
      stream.write(stream.isTTY ? `\r${line}\u001b[K\n` : `${line}\n`);
    } else if (stream.isTTY) {
      stream.write(`\r${bar(shareOf(progress))} ${line}\u001b[K`);
    }
  };
}

function shareOf({ args }: Finding): number {
  if (typeof args.share === 'number') return args.share;
  return typeof args.sentBytes === 'number' && typeof args.bytes === 'number' && args.bytes > 0
    ? args.sentBytes / args.bytes
    : 0;
}

function bar(share: number): string {
  const full = Math.round(Math.min(1, Math.max(0, share)) * 24);
  return `[${'#'.repeat(full)}${'.'.repeat(24 - full)}]`;
}
