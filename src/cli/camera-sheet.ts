import type { Command } from 'commander';
import { errorCode, SetsideError } from '../base/index.ts';
import { exitCodes } from './exit-codes.ts';
import { findStation, type WhichStation, withStation } from './find-station.ts';
import { printJson, printLine } from './output.ts';
import { callStation } from './station-calls.ts';
import { writeNew } from './write-new.ts';

interface Flags extends WhichStation {
  readonly to?: string;
  readonly json: boolean;
}

/** `setside camera sheet NAME`: what to enter on the camera, as a PDF of the running station. */
export function addSheetCommand(camera: Command, leave: (code: number) => void): void {
  withStation(
    camera
      .command('sheet <name>')
      .description('what to enter on the camera, as PDF to print; the station has to run'),
  )
    .option('--to <file>', 'where to write it; default camera-sheet-NAME.pdf here')
    .option('--json', 'JSON on standard output: where it was written', false)
    .action(async (name: string, flags: Flags) => {
      const answer = await callStation(
        await findStation(flags),
        `/api/v1/cameras/${encodeURIComponent(name)}/sheet.pdf`,
      ).catch((thrown: unknown) => {
        if (errorCode(thrown) !== 'not-found') throw thrown;
        throw new SetsideError('no-camera', `there is no camera ${name}`, {
          cause: thrown,
          cure: 'setside camera list shows those there are.',
        });
      });
      const file = flags.to ?? `camera-sheet-${name}.pdf`;
      // For this user only, since it holds a password.
      await writeNew(file, new Uint8Array(await answer.arrayBuffer()), 0o600);
      if (flags.json) printJson({ file });
      else printLine(`${file} is written. It holds the password: keep it with the camera.`, false);
      leave(exitCodes.done);
    });
}
