import { isAbsolute, relative, resolve, sep } from 'node:path';
import { Command } from 'commander';
import { type PutBackAnswer, putBackAnswer } from '../contract/index.ts';
import { handOverLabels, sentence } from '../words/index.ts';
import { existingHome } from './existing-home.ts';
import { exitCodes } from './exit-codes.ts';
import { findStationIfAny, type WhichStation, withStation } from './find-station.ts';
import { printJson, printLine } from './output.ts';
import { callStation } from './station-calls.ts';

interface Flags extends WhichStation {
  readonly json: boolean;
}

/** A second place on a slow disk, and many originals. */
const putBackMsMax = 3_600_000;

/** `setside restore [FILE…]`: puts originals back from a second place, with a station or without; 1 where one is not as received. */
export function restoreCommand(leave: (code: number) => void): Command {
  return withStation(
    new Command('restore').description(
      'Puts originals that are not as received back from a second place that holds them. The copy is read and compared first; what lies under the name is moved to set-aside/ in the home, never deleted.',
    ),
  )
    .argument(
      '[file...]',
      'an original as setside verify names it, or the name of its file; left out: all that were found bad',
    )
    .option('--json', 'one JSON document on standard output', false)
    .action(async (files: readonly string[], flags: Flags) => {
      const names = files.length === 0 ? null : files.map((file) => belowHome(flags.home, file));
      const { originals } = await restore(flags, names);
      if (flags.json) printJson({ originals });
      else {
        if (originals.length === 0) printLine(handOverLabels.nothingToPutBack, false);
        for (const { findings } of originals)
          for (const finding of findings) printLine(sentence(finding), false);
      }
      const fine = originals.every(({ outcome }) => outcome === 'put-back' || outcome === 'as-received');
      leave(fine ? exitCodes.done : exitCodes.no);
    });
}

/** The journal has one writer: a station that runs does it, and this command where none does. */
async function restore(flags: Flags, names: readonly string[] | null): Promise<PutBackAnswer> {
  const station = await findStationIfAny(flags);
  if (station === null) {
    const { putBackInHome } = await import('../station/index.ts');
    return putBackInHome(await existingHome(flags.home), names);
  }
  const wish = names === null ? {} : { originals: names };
  const answer = await callStation(station, '/api/v1/originals/put-back', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(wish),
    signal: AbortSignal.timeout(putBackMsMax),
  });
  return putBackAnswer.parse(await answer.json());
}

/** A path into the home as the journal has it; anything else as it was given. */
function belowHome(home: string, file: string): string {
  const below = relative(resolve(home), resolve(file));
  const isInHome = isAbsolute(file) && below !== '' && !below.startsWith('..') && !isAbsolute(below);
  return isInHome ? below.split(sep).join('/') : file;
}
