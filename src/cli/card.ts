import { resolve } from 'node:path';
import { Command } from 'commander';
import { checkCard } from '../keep/index.ts';
import { cardLines } from './card-lines.ts';
import { cardProgress } from './card-progress.ts';
import { existingHome } from './existing-home.ts';
import { exitCodes } from './exit-codes.ts';
import { withHome } from './find-station.ts';
import { printJson, printLine } from './output.ts';

/** `setside card`: is every file of a memory card here, twice. By home and card alone, beside a station or without one. */
export function cardCommand(leave: (code: number) => void): Command {
  return withHome(
    new Command('card').description(
      'Reads every file of a memory card and looks for its bytes among the originals and their copies, which are read again too. Ends with 0 only where every one is proved to be in the home and on another disk. Writes nothing, deletes nothing.',
    ),
  )
    .argument('<folder>', 'the folder that the card is shown under')
    .option('--json', 'one JSON document on standard output', false)
    .action(async (given: string, flags: { readonly home: string; readonly json: boolean }) => {
      const home = await existingHome(flags.home);
      const progress = cardProgress();
      const report = await checkCard(home, resolve(given), progress.show).finally(progress.done);
      if (flags.json) printJson({ home, ...report });
      else for (const line of cardLines(report)) printLine(line, false);
      leave(report.safe ? exitCodes.done : exitCodes.no);
    });
}
