import { Command } from 'commander';
import { SetsideError } from '../base/index.ts';
import { type LineCheck, lineCheck, station as stationShape } from '../contract/index.ts';
import { exitCodes } from './exit-codes.ts';
import { findStation, type WhichStation, withStation } from './find-station.ts';
import { lineLines } from './line-lines.ts';
import { openFirewall } from './open-firewall.ts';
import { printJson, printLine } from './output.ts';
import { callStation } from './station-calls.ts';

interface Flags extends WhichStation {
  readonly json: boolean;
  readonly mend: boolean;
}

/** `setside line`: is the way from camera to station open, and if not, where is it shut. */
export function lineCommand(leave: (code: number) => void): Command {
  const command = new Command('line').description(
    'The line check: whether cameras reach a running station, where the way is shut, and what mends it.',
  );
  return withStation(command)
    .option('--json', 'one JSON document on standard output', false)
    .option(
      '--mend',
      'shows the lines that open this computer’s firewall for the cameras, asks, and runs them',
      false,
    )
    .action(async (flags: Flags) => {
      const station = await findStation(flags);
      const first = await lineOf(station);
      const check = flags.mend ? await mended(station, first, flags.json) : first;
      if (flags.json) printJson(check);
      else for (const line of lineLines(check)) printLine(line, false);
      leave(check.open ? exitCodes.done : exitCodes.no);
    });
}

/** The check once more, where anything was done. */
async function mended(station: string, check: LineCheck, json: boolean): Promise<LineCheck> {
  // The lines come from the station: they are for its computer, and for no other.
  if (!isHere(station)) {
    throw new SetsideError('bad-option', 'a firewall is opened on the station’s own computer only', {
      cure: 'Run setside line --mend there.',
    });
  }
  return (await openFirewall(check.firewall.commands, json)) ? lineOf(station) : check;
}

/** Where the station was not let at the firewall's rules, this command may be: an administrator runs it. */
export async function lineOf(station: string): Promise<LineCheck> {
  const check = lineCheck.parse(await (await callStation(station, '/api/v1/line')).json());
  if (check.firewall.read || !isHere(station)) return check;
  const { cameras } = stationShape.parse(await (await callStation(station, '/api/v1/station')).json());
  // The station's room is most of the program, and is loaded by those only who need it.
  const { readFirewallAgain } = await import('../station/index.ts');
  return readFirewallAgain(check, cameras);
}

function isHere(station: string): boolean {
  return /^https?:\/\/(127\.0\.0\.1|localhost|\[::1\])[:/]/.test(`${station}/`);
}
