import type { Finding } from '../facts/index.ts';
import { numberArg, textArg } from './phrases.ts';

/** What a look was given to in one go: `job QM-26, 4 shots and 1 frame`. */
export function lookPlaces(args: Finding['args']): string {
  const job = textArg(args, 'job');
  const parts = [
    ...(job === '' ? [] : [`job ${job}`]),
    ...counted(numberArg(args, 'shots'), 'shot'),
    ...counted(numberArg(args, 'frames'), 'frame'),
  ];
  const last = parts.pop() ?? '';
  return parts.length === 0 ? last : `${parts.join(', ')} and ${last}`;
}

function counted(count: number, what: string): string[] {
  return count === 0 ? [] : [count === 1 ? `1 ${what}` : `${count} ${what}s`];
}
