import { errorCode } from '../base/index.ts';
import { exitCodes } from './exit-codes.ts';

/**
 * What happens when nobody reads a command's output any more, as behind `| head -3`: it ends at once and says nothing,
 * with its own exit code where its work was done, else with `failed`. A station goes on: cameras still send, and what
 * they send matters more than a log that nobody reads.
 */
export function endWithReader(goesOn: boolean): void {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on('error', (thrown) => {
      if (errorCode(thrown) !== 'EPIPE') throw thrown;
      // After the turn in which a command that has written all may still leave its own code.
      if (!goesOn) setImmediate(() => process.exit(process.exitCode ?? exitCodes.failed));
    });
  }
}
