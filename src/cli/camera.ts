import { homedir } from 'node:os';
import { join } from 'node:path';
import { Command, InvalidArgumentError } from 'commander';
import {
  type Camera,
  type CameraAccess,
  changeCameraFile,
  protocols,
  readCameraFile,
  readDiary,
} from '../station/index.ts';
import { sentence } from '../words/index.ts';
import { existingHome } from './existing-home.ts';
import { exitCodes } from './exit-codes.ts';
import { printJson, printLine } from './output.ts';

interface Flags {
  readonly home: string;
  readonly json: boolean;
}

interface AccessFlags extends Flags {
  readonly allow?: string[];
  readonly anywhere?: boolean;
  readonly protocol?: Camera['protocols'];
  readonly key?: string[];
}

/** `setside camera`: who may come in. A running station follows within a second. */
export function cameraCommand(leave: (code: number) => void): Command {
  const command = new Command('camera').description(
    'Cameras and how they may come in. A running station follows within a second, without a restart.',
  );
  subcommand(command, 'list', 'every camera with its log-in').action(async (flags: Flags) => {
    for (const camera of await readCameraFile(await existingHome(flags.home))) show(camera, flags.json);
    leave(exitCodes.done);
  });
  withAccess(subcommand(command, 'add <name>', 'one more camera, with a password of its own')).action(
    async (name: string, flags: AccessFlags) => {
      show(
        await changeCameraFile(await existingHome(flags.home), { add: name }, accessOf(flags)),
        flags.json,
      );
      leave(exitCodes.done);
    },
  );
  withAccess(subcommand(command, 'change <name>', 'where it may come from, and by which doors')).action(
    async (name: string, flags: AccessFlags) => change(name, flags, accessOf(flags)),
  );
  subcommand(command, 'password <name>', 'a new password in the place of the old').action(
    async (name: string, flags: Flags) => change(name, flags, { newPassword: true }),
  );
  subcommand(command, 'end <name>', 'it may not come in any more; what it sent stays').action(
    async (name: string, flags: Flags) => change(name, flags, { ended: true }),
  );
  subcommand(command, 'return <name>', 'it may come in again').action(async (name: string, flags: Flags) =>
    change(name, flags, { ended: false }),
  );
  subcommand(command, 'diary [name]', 'what happened on the line in the last 30 days, newest first')
    .option('--limit <n>', 'how many lines', wholeNumber, 100)
    .action(async (name: string | undefined, flags: Flags & { readonly limit: number }) => {
      const { lines } = await readDiary(await existingHome(flags.home), { camera: name, limit: flags.limit });
      for (const line of lines) {
        if (flags.json) printJson({ ...line, sentence: sentence(line.finding) });
        else printLine(`${line.at}  ${line.camera ?? '-'}  ${sentence(line.finding)}`, false);
      }
      leave(exitCodes.done);
    });
  return command;

  async function change(name: string, flags: Flags, access: CameraAccess): Promise<void> {
    show(await changeCameraFile(await existingHome(flags.home), { change: name }, access), flags.json);
    leave(exitCodes.done);
  }
}

function subcommand(parent: Command, words: string, description: string): Command {
  return parent
    .command(words)
    .description(description)
    .option('--home <dir>', 'folder of the station', process.env.SETSIDE_HOME ?? join(homedir(), 'Setside'))
    .option('--json', 'JSON on standard output, one document for each camera or line', false);
}

function withAccess(command: Command): Command {
  return command
    .option(
      '--allow <where>',
      'address, network (192.168.7.0/24) or hardware address it may come from (repeatable)',
      (where: string, others: string[] = []) => [...others, where],
    )
    .option('--anywhere', 'it may come from everywhere')
    .option('--protocol <list>', `doors it may come in by, of ${protocols.join(', ')}`, protocolList)
    .option(
      '--key <line>',
      'public key for SFTP, as in authorized_keys (repeatable)',
      (key: string, others: string[] = []) => [...others, key],
    );
}

function accessOf({ allow, anywhere, protocol, key }: AccessFlags): CameraAccess {
  return {
    ...(anywhere === true ? { allow: [] } : allow === undefined ? {} : { allow }),
    ...(protocol === undefined ? {} : { protocols: protocol }),
    ...(key === undefined ? {} : { keys: key }),
  };
}

function show({ name, user, password, allow, protocols: ways, keys, ended }: Camera, json: boolean): void {
  if (json) {
    printJson({ name, user, password, allow, protocols: ways, keys, ended });
    return;
  }
  const from = allow.length === 0 ? 'from everywhere' : `from ${allow.join(', ')}`;
  printLine(
    `${name}  user ${user}  password ${password}  by ${ways.join(', ')}  ${from}${ended ? '  (ended)' : ''}`,
    json,
  );
}

function protocolList(text: string): Camera['protocols'] {
  const chosen = text.split(',').map((word) => word.trim().toLowerCase());
  const known = protocols.filter((protocol) => chosen.includes(protocol));
  if (known.length === 0 || known.length !== new Set(chosen).size) {
    throw new InvalidArgumentError(`expected some of ${protocols.join(', ')}, got "${text}"`);
  }
  return known;
}

function wholeNumber(text: string): number {
  const value = Number(text);
  if (Number.isInteger(value) && value > 0 && value <= 100_000) return value;
  throw new InvalidArgumentError(`expected a number from 1 to 100000, got "${text}"`);
}
