import { Command, InvalidArgumentError } from 'commander';
import { errorCode, SetsideError } from '../base/index.ts';
import { type Strike, strike } from '../contract/index.ts';
import { strikeLabels } from '../words/index.ts';
import { exitCodes } from './exit-codes.ts';
import { findStation, type WhichStation, withStation } from './find-station.ts';
import { inWordsOfJobs } from './job-refusals.ts';
import { printJson, printLine } from './output.ts';
import { callStation, sendJson } from './station-calls.ts';
import { strikeLines } from './strike-lines.ts';

interface Flags extends WhichStation {
  readonly json: boolean;
  readonly last?: readonly LastNumber[];
  readonly sign?: string;
}

interface LastNumber {
  readonly camera: string;
  readonly counter: number;
}

/** `setside strike`: may the set come down. The running station knows; 1 while something is missing. */
export function strikeCommand(leave: (code: number) => void): Command {
  return withStation(
    new Command('strike').description(
      'May the set come down: what is missing, worst first. Ends with 1 while it is not ready.',
    ),
  )
    .argument('[job]', 'code of a job; the open one where it is left out')
    .option(
      '--last <camera=number>',
      'the number of the last frame as the camera shows it; may be given for each camera',
      lastNumber,
    )
    .option('--sign <name>', 'sign it where nothing is missing')
    .option('--json', 'one JSON document on standard output', false)
    .action(async (job: string | undefined, flags: Flags) => {
      const station = await findStation(flags);
      const shown = await afterWishes(station, await check(station, job), flags);
      if (flags.json) printJson(shown);
      else for (const line of strikeLines(shown)) printLine(line, false);
      if (flags.sign !== undefined && !shown.ready && !flags.json)
        printLine(strikeLabels.notSigned(flags.sign, shown.open.length), false);
      leave(shown.ready ? exitCodes.done : exitCodes.no);
    });
}

async function check(station: string, job: string | undefined): Promise<Strike> {
  const query = job === undefined ? '' : `?job=${encodeURIComponent(job)}`;
  return about(job, callStation(station, `/api/v1/strike${query}`));
}

/** What was wished is said first, so that the answer is the check after it. */
async function afterWishes(station: string, before: Strike, { last = [], sign }: Flags): Promise<Strike> {
  const path = `/api/v1/jobs/${encodeURIComponent(before.job)}/strike`;
  let shown = before;
  for (const { camera, counter } of last) {
    const address = `${path}/numbers/${encodeURIComponent(camera)}`;
    shown = await about(before.job, sendJson(station, 'PUT', address, { counter }));
  }
  if (sign === undefined || !shown.ready) return shown;
  return about(before.job, sendJson(station, 'PUT', `${path}/signature`, { name: sign, state: shown.state }));
}

async function about(job: string | undefined, call: Promise<Response>): Promise<Strike> {
  try {
    return strike.parse(await (await call).json());
  } catch (thrown) {
    if (job !== undefined) throw inWordsOfJobs(thrown, job);
    if (errorCode(thrown) !== 'not-found') throw thrown;
    throw new SetsideError('no-job', 'No job is open, so there is nothing to check', {
      cause: thrown,
      cure: 'Name one: setside job list shows those there are.',
    });
  }
}

function lastNumber(text: string, before: readonly LastNumber[] = []): readonly LastNumber[] {
  const match = /^(.+)=(\d{1,4})$/.exec(text);
  const counter = Number(match?.[2] ?? 0);
  if (match === null || counter === 0)
    throw new InvalidArgumentError('expected CAMERA=NUMBER with a number from 1 to 9999, such as cam1=0412');
  return [...before, { camera: match[1] ?? '', counter }];
}
