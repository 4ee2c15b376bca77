import type { Command } from '../command.ts';
import { restartPoint, storeNamed } from '../store.ts';

/**
 * RFC 959 section 4.1.3: goes on at the end, or begins a file that is not there. Behind REST it goes on where REST
 * says: RFC 3659 section 5 leaves the pair open, and bytes meant for one place must not land at another.
 */
export const appe: Command = {
  verb: 'APPE',
  needs: 'login',
  run: (turn, argument) => storeNamed(turn, 'APPE', argument, restartPoint(turn) ?? 'end'),
};
