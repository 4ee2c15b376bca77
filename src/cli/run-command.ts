import { Command, CommanderError } from 'commander';
import { errorCode } from '../base/index.ts';
import { exitCodes } from './exit-codes.ts';
import { printFailure } from './output.ts';

type CommandOf = (leave: (code: number) => void) => Command;

/** Each is loaded when it is asked for: a station is most of the program, and nobody should wait for it to read a help. */
const commands: Readonly<Record<string, (words: readonly string[]) => Promise<CommandOf>>> = {
  station: async () => (await import('./station.ts')).stationCommand,
  job: async () => (await import('./job.ts')).jobCommand,
  strike: async () => (await import('./strike.ts')).strikeCommand,
  deliver: async () => (await import('./deliver.ts')).deliverCommand,
  destination: async () => (await import('./destination.ts')).destinationCommand,
  metadata: async () => (await import('./metadata.ts')).metadataCommand,
  camera: async () => (await import('./camera.ts')).cameraCommand,
  line: async () => (await import('./line.ts')).lineCommand,
  link: async () => (await import('./link.ts')).linkCommand,
  'stand-in': async () => (await import('./stand-in.ts')).standInCommand,
  develop: async (words) => {
    // Its thread is most of its beginning, and loads beside the command; who only asks for help needs none.
    const isWork = words[0] === 'develop' && words.length > 1 && !words.some((word) => helpWords.has(word));
    if (isWork) (await import('../workers/index.ts')).startThreadAhead();
    return (await import('./develop.ts')).developCommand;
  },
  sheet: async () => (await import('./papers.ts')).sheetCommand,
  report: async () => (await import('./papers.ts')).reportCommand,
  look: async () => (await import('./look.ts')).lookCommand,
  judge: async () => (await import('./judge.ts')).judgeCommand,
  card: async () => (await import('./card.ts')).cardCommand,
  bag: async () => (await import('./bag.ts')).bagCommand,
  restore: async () => (await import('./restore.ts')).restoreCommand,
  verify: async () => (await import('./verify.ts')).verifyCommand,
};

const helpWords: ReadonlySet<string> = new Set(['-h', '--help']);

/** Errors of rooms that say an option does not fit; all that commander finds itself is wrong use anyway. */
const wrongUseCodes: ReadonlySet<string> = new Set([
  'bad-option',
  'stand-in-wrong-option',
  'bad-camera-name',
  'bad-allow-rule',
  'everywhere-and-more',
  'private-key',
  'bad-key',
  'unknown-key-kind',
  'weak-key',
  'bad-look',
  'bad-profile',
  'bad-lens',
  'bag-in-home',
  'bad-specification',
  'bad-metadata',
  'bad-destination',
]);
/** What was asked is understood, and the answer is no. */
const noCodes: ReadonlySet<string> = new Set([
  'no-job',
  'no-shot',
  'several-shots',
  'no-camera',
  'camera-exists',
  'too-many-cameras',
  'no-key',
  'too-many-keys',
  'no-link',
  'several-links',
  'too-many-links',
  'no-frame',
  'no-original',
  'several-frames',
  'no-target',
  'target-not-read',
  'no-such-look',
  'no-such-specification',
  'nothing-to-deliver',
  'nothing-to-print',
  'no-destination',
  'no-such-sheet',
  'no-metadata',
  'sheet-there',
  'too-many-sheets',
  'too-many-destinations',
  'destination-there',
  'destination-busy',
  'too-many-looks',
  'no-such-numbers',
  'strike-changed',
  'bag-there',
  'bag-source-altered',
]);

/** The `setside` command: reads the words given, runs one command, gives its exit code. */
export async function runCommand(words: readonly string[]): Promise<number> {
  let code: number = exitCodes.done;
  const leave = (outcome: number): void => {
    code = outcome;
  };
  const program = new Command('setside').description('The station at the side of a photographer’s set.');
  const named = Object.hasOwn(commands, words[0] ?? '') ? commands[words[0] ?? ''] : undefined;
  if (named === undefined) program.version((await import('../station/index.ts')).version);
  const wanted = named === undefined ? Object.values(commands) : [named];
  for (const add of await Promise.all(wanted.map((load) => load(words)))) program.addCommand(add(leave));
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
