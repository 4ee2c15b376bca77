import { realpath } from 'node:fs/promises';
import { resolve } from 'node:path';
import { Command } from 'commander';
import { errorMessage } from '../base/index.ts';
import type { NewCardOutcome } from '../contract/index.ts';
import { type CardReport, cardMark, checkCard } from '../keep/index.ts';
import { cardLines } from './card-lines.ts';
import { cardProgress } from './card-progress.ts';
import { existingHome } from './existing-home.ts';
import { exitCodes } from './exit-codes.ts';
import { findStationIfAny, withHome } from './find-station.ts';
import { printJson, printLine } from './output.ts';
import { sendJson } from './station-calls.ts';

/**
 * `setside card`: is every file of a memory card here, twice. By home and card alone, beside a station or without one; one that runs
 * is told the outcome.
 */
export function cardCommand(leave: (code: number) => void): Command {
  return withHome(
    new Command('card').description(
      'Reads every file of a memory card and looks for its bytes among the originals and their copies, which are read again too. Ends with 0 only where every one is proved to be in the home and on another disk. A running station is told, so that its page and the strike check know it. Writes nothing on the card, deletes nothing.',
    ),
  )
    .argument('<folder>', 'the folder that the card is shown under')
    .option('--json', 'one JSON document on standard output', false)
    .action(async (given: string, flags: { readonly home: string; readonly json: boolean }) => {
      const home = await existingHome(flags.home);
      const { readSettings } = await import('../station/index.ts');
      // As the station of this home counts, where its settings can be read.
      const { memoryCounts = false } = await readSettings(home).catch(() => ({ memoryCounts: false }));
      const folder = resolve(given);
      const progress = cardProgress();
      const startedMs = Date.now();
      const mark = await markOf(folder);
      const report = await checkCard(home, folder, progress.show, { memoryCounts }).finally(progress.done);
      const told = await tellStation(home, report, startedMs, mark);
      if (flags.json) printJson({ home, ...report, station: told.state });
      else for (const line of [...cardLines(report), ...told.lines]) printLine(line, false);
      leave(report.safe ? exitCodes.done : exitCodes.no);
    });
}

/** By what the station knows it again: it asks by the real path. */
async function markOf(folder: string): Promise<string | null> {
  const real = await realpath(folder).catch(() => null);
  return real === null ? null : cardMark(real);
}

interface Told {
  /** `none`: no station of this home runs. */
  readonly state: 'told' | 'not-told' | 'none';
  readonly lines: readonly string[];
}

/** What was found is as true without a station, or with one that does not listen: the answer of the command is the same. */
async function tellStation(
  home: string,
  report: CardReport,
  startedMs: number,
  mark: string | null,
): Promise<Told> {
  try {
    const station = await findStationIfAny({ home });
    if (station === null) return { state: 'none', lines: [] };
    const { cardToTell } = await import('../station/index.ts');
    const folder = await realpath(report.folder).catch(() => report.folder);
    const outcome: NewCardOutcome = cardToTell({ ...report, folder }, startedMs, Date.now(), mark);
    await sendJson(station, 'POST', '/api/v1/cards/outcome', outcome);
    return { state: 'told', lines: [] };
  } catch (thrown) {
    const why = errorMessage(thrown);
    return {
      state: 'not-told',
      lines: [
        `The running station could not be told (${why}): its page and the strike check do not know of this.`,
      ],
    };
  }
}
