import { Command, CommanderError } from 'commander';
import { errorCode } from '../base/index.ts';
import { standInErrorCodes } from '../stand-in/index.ts';
import { version } from '../station/index.ts';
import { cameraCommand } from './camera.ts';
import { developCommand } from './develop.ts';
import { exitCodes } from './exit-codes.ts';
import { jobCommand } from './job.ts';
import { printFailure } from './output.ts';
import { endWithReader } from './reader-gone.ts';
import { standInCommand } from './stand-in.ts';
import { stationCommand } from './station.ts';
import { verifyCommand } from './verify.ts';

/** Errors of rooms that say an option does not fit; all that commander finds itself is wrong use anyway. */
const wrongUseCodes: ReadonlySet<string> = new Set(['bad-option', standInErrorCodes.wrongOption]);

/** The `setside` command: reads the words given, runs one command, leaves its exit code. */
async function main(words: readonly string[]): Promise<number> {
  let code: number = exitCodes.done;
  const leave = (outcome: number): void => {
    code = outcome;
  };
  const program = new Command('setside')
    .description('The station at the side of a photographer’s set.')
    .version(version)
    .exitOverride()
    .showHelpAfterError('(add --help for what each command takes)');
  for (const add of [
    stationCommand,
    jobCommand,
    cameraCommand,
    standInCommand,
    developCommand,
    verifyCommand,
  ]) {
    program.addCommand(add(leave).exitOverride());
  }
  try {
    await program.parseAsync(words, { from: 'user' });
    return code;
  } catch (thrown) {
    if (thrown instanceof CommanderError) return thrown.exitCode === 0 ? exitCodes.done : exitCodes.wrongUse;
    printFailure(thrown, words.includes('--json'));
    return wrongUseCodes.has(errorCode(thrown)) ? exitCodes.wrongUse : exitCodes.failed;
  }
}

const words = process.argv.slice(2);
endWithReader(words[0] === 'station');
process.exitCode = await main(words);
