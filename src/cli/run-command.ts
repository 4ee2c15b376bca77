import { Command, CommanderError } from 'commander';
import { errorCode } from '../base/index.ts';
import { standInErrorCodes } from '../stand-in/index.ts';
import { version } from '../station/index.ts';
import { cameraCommand } from './camera.ts';
import { developCommand } from './develop.ts';
import { exitCodes } from './exit-codes.ts';
import { jobCommand } from './job.ts';
import { printFailure } from './output.ts';
import { standInCommand } from './stand-in.ts';
import { stationCommand } from './station.ts';
import { verifyCommand } from './verify.ts';

/** Errors of rooms that say an option does not fit; all that commander finds itself is wrong use anyway. */
const wrongUseCodes: ReadonlySet<string> = new Set([
  'bad-option',
  standInErrorCodes.wrongOption,
  'bad-camera-name',
  'bad-allow-rule',
  'everywhere-and-more',
  'private-key',
  'bad-key',
  'unknown-key-kind',
  'weak-key',
]);
/** What was asked is understood, and the answer is no. */
const noCodes: ReadonlySet<string> = new Set([
  'no-camera',
  'camera-exists',
  'too-many-cameras',
  'no-key',
  'too-many-keys',
]);

/** The `setside` command: reads the words given, runs one command, gives its exit code. */
export async function runCommand(words: readonly string[]): Promise<number> {
  let code: number = exitCodes.done;
  const leave = (outcome: number): void => {
    code = outcome;
  };
  const program = new Command('setside')
    .description('The station at the side of a photographer’s set.')
    .version(version);
  for (const add of [
    stationCommand,
    jobCommand,
    cameraCommand,
    standInCommand,
    developCommand,
    verifyCommand,
  ]) {
    program.addCommand(add(leave));
  }
  neverExit(program);
  try {
    await program.parseAsync(words, { from: 'user' });
    return code;
  } catch (thrown) {
    if (thrown instanceof CommanderError) return thrown.exitCode === 0 ? exitCodes.done : exitCodes.wrongUse;
    printFailure(thrown, words.includes('--json'));
    return exitCodeFor(errorCode(thrown));
  }
}

/** Commands within commands too: commander's own exit code for wrong use is 1, which means no here. */
function neverExit(command: Command): void {
  command.exitOverride().showHelpAfterError('(add --help for what each command takes)');
  for (const each of command.commands) neverExit(each);
}

function exitCodeFor(code: string): number {
  if (wrongUseCodes.has(code)) return exitCodes.wrongUse;
  return noCodes.has(code) ? exitCodes.no : exitCodes.failed;
}
