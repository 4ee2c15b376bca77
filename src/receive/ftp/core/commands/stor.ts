import type { Command } from '../command.ts';
import { restartPoint, storeNamed } from '../store.ts';

/** RFC 959 section 4.1.3; after REST it goes on at the restart point (RFC 3659 section 5). */
export const stor: Command = {
  verb: 'STOR',
  needs: 'login',
  run: (turn, argument) => storeNamed(turn, 'STOR', argument, restartPoint(turn) ?? 'start'),
};
