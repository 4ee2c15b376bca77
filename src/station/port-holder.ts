import { errorCode, SetsideError } from '../base/index.ts';
import { lookHolders } from './line/look-holders.ts';
import { systemOf } from './line/system-of.ts';

/** A port that a door could not have, told with who has it and the option that chooses another; anything else as it was thrown. */
export async function withHolder(thrown: unknown, port: number, option: string): Promise<unknown> {
  if (errorCode(thrown) !== 'port-in-use') return thrown;
  const holders = await lookHolders(systemOf(process.platform)).catch(() => new Map<number, string>());
  const holder = holders.get(port) ?? '';
  const who = holder === '' ? 'another program' : holder;
  return new SetsideError('port-in-use', `expected port ${port} to be free, but ${who} has it`, {
    cause: thrown,
    cure: `End ${holder === '' ? 'that program' : holder}, or choose another port with ${option}.`,
    details: { port },
  });
}
