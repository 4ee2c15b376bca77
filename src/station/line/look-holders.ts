import {
  type Holders,
  holdersOfLsof,
  holdersOfNetstat,
  holdersOfSs,
  type LineSystem,
} from '../../line/index.ts';
import { outputOf } from './run-program.ts';

/** Who listens where on this computer; empty where the system does not tell. */
export async function lookHolders(system: LineSystem): Promise<Holders> {
  switch (system) {
    case 'linux':
      return holdersOfSs((await outputOf('ss', ['-Hltnp'])) ?? '');
    case 'macos':
      return holdersOfLsof((await outputOf('lsof', ['-nP', '-iTCP', '-sTCP:LISTEN'])) ?? '');
    case 'windows':
      return holdersOfNetstat((await outputOf('netstat', ['-ano', '-p', 'TCP'])) ?? '');
    case 'other':
      return new Map();
  }
}
