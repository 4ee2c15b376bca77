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

/** What a frame is shown with: `Evening 3, its shot’s`. */
export function lookInForcePhrase({ name, version, from, wish }: LookInForce): string {
  if (wish !== null) return `The plain look: ${askers[from]} asks for “${wish}”, which is not kept yet.`;
  if (version === null) return 'The plain look: nobody chose another.';
  return `${name} ${version}, ${owners[from]}.`;
}

interface LookInForce {
  readonly name: string;
  readonly version: number | null;
  readonly from: 'frame' | 'shot' | 'job' | 'station';
  readonly wish: string | null;
}

const askers = { frame: 'somebody', shot: 'its shot', job: 'its job', station: 'nobody' } as const;
const owners = {
  frame: 'chosen for this frame alone',
  shot: 'its shot’s',
  job: 'its job’s',
  station: 'the station’s',
} as const;

function counted(count: number, what: string): string[] {
  return count === 0 ? [] : [count === 1 ? `1 ${what}` : `${count} ${what}s`];
}
