import type { Command } from '../command.ts';
import { namedTarget, store } from '../store.ts';

/** RFC 959 section 4.1.3: goes on at the end, or begins a file that is not there. */
export const appe: Command = {
  verb: 'APPE',
  needs: 'login',
  run: (turn, argument) => store(turn, 'APPE', namedTarget(turn, argument), 'end'),
};
