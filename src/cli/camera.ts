import { Command, InvalidArgumentError } from 'commander';
import { station as stationShape } from '../contract/index.ts';
import {
  type Camera,
  type CameraAccess,
  changeCameraFile,
  noCamera,
  readCameraFile,
  readDiary,
} from '../station/index.ts';
import { sentence } from '../words/index.ts';
import { type AccessFlags, accessOf, withAccess, withChanges } from './camera-access.ts';
import { type CameraNow, showCamera } from './camera-lines.ts';
import { addSheetCommand } from './camera-sheet.ts';
import { existingHome } from './existing-home.ts';
import { exitCodes } from './exit-codes.ts';
import { findStationIfAny, type WhichStation, withHome, withStation } from './find-station.ts';
import { printJson, printLine } from './output.ts';
import { callStation } from './station-calls.ts';

interface Flags {
  readonly home: string;
  readonly json: boolean;
}

/** `setside camera`: who may come in. A running station follows within a second. */
export function cameraCommand(leave: (code: number) => void): Command {
  const command = new Command('camera').description(
    'Cameras and how they may come in. A running station follows within a second, without a restart.',
  );
  withStation(
    command.command('list').description('every camera with its log-in, its keys and its watched folders'),
  )
    .option('--json', jsonHelp, false)
    .action(async (flags: Flags & WhichStation) => {
      const cameras = await readCameraFile(await existingHome(flags.home));
      const now = await camerasNow(flags);
      for (const camera of cameras) showCamera(camera, flags.json, now.get(camera.name) ?? null);
      leave(exitCodes.done);
    });
  withAccess(subcommand(command, 'add <name>', 'one more camera, with a password of its own')).action(
    async (name: string, flags: Flags & AccessFlags) => {
      const home = await existingHome(flags.home);
      showCamera(await changeCameraFile(home, { add: name }, await accessOf(flags)), flags.json);
      leave(exitCodes.done);
    },
  );
  withChanges(
    subcommand(command, 'change <name>', 'where it may come from, by which doors and by which keys'),
  ).action(async (name: string, flags: Flags & AccessFlags) => change(name, flags, await accessOf(flags)));
  subcommand(command, 'password <name>', 'a new password in the place of the old').action(
    async (name: string, flags: Flags) => change(name, flags, { newPassword: true }),
  );
  subcommand(
    command,
    'end <name>',
    'it may not come in any more, nor is its folder watched; what it sent stays',
  ).action(async (name: string, flags: Flags) => change(name, flags, { ended: true }));
  subcommand(command, 'return <name>', 'it may come in again').action(async (name: string, flags: Flags) =>
    change(name, flags, { ended: false }),
  );
  subcommand(
    command,
    'diary [name]',
    'what happened on the line in the last 30 days, newest first; with a name what that camera did, and who was not let in',
  )
    .option('--limit <n>', 'how many lines', wholeNumber, 100)
    .action(async (name: string | undefined, flags: Flags & { readonly limit: number }) => {
      await showDiary(await existingHome(flags.home), name, flags);
      leave(exitCodes.done);
    });
  addSheetCommand(command, leave);
  return command;

  async function change(name: string, flags: Flags, access: CameraAccess): Promise<void> {
    showCamera(await changeCameraFile(await existingHome(flags.home), { change: name }, access), flags.json);
    leave(exitCodes.done);
  }
}

const jsonHelp = 'JSON on standard output, one document for each camera or line';

function subcommand(parent: Command, words: string, description: string): Command {
  return withHome(parent.command(words).description(description)).option('--json', jsonHelp, false);
}

async function showDiary(
  home: string,
  camera: string | undefined,
  { limit, json }: { readonly limit: number; readonly json: boolean },
): Promise<void> {
  const cameras: readonly Camera[] = await readCameraFile(home);
  if (camera !== undefined && !cameras.some(({ name }) => name === camera)) throw noCamera(camera, cameras);
  const { lines } = await readDiary(home, { camera, limit });
  for (const line of lines) {
    if (json) printJson({ ...line, sentence: sentence(line.finding) });
    else printLine(`${line.at}  ${line.camera ?? '-'}  ${sentence(line.finding)}`, false);
  }
  if (lines.length === 0) printLine('Nothing in the last 30 days.', json);
}

/** By name; empty where no station runs. */
async function camerasNow(which: WhichStation): Promise<ReadonlyMap<string, CameraNow>> {
  const base = await findStationIfAny(which);
  if (base === null) return new Map();
  const { cameras } = stationShape.parse(await (await callStation(base, '/api/v1/station')).json());
  return new Map(cameras.map(({ name, watched, connected }) => [name, { watched, connected }]));
}

function wholeNumber(text: string): number {
  const value = Number(text);
  if (Number.isInteger(value) && value > 0 && value <= 100_000) return value;
  throw new InvalidArgumentError(`expected a number from 1 to 100000, got "${text}"`);
}
