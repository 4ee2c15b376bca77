import { type Command, InvalidArgumentError } from 'commander';
import { SetsideError } from '../base/index.ts';
import { type Job, job } from '../contract/index.ts';
import type { SharePoint } from '../facts/index.ts';
import { scaleToldPhrase } from '../words/index.ts';
import { exitCodes } from './exit-codes.ts';
import { findStation, type WhichStation } from './find-station.ts';
import { frameNamed } from './frame-named.ts';
import { framesOf } from './frames-of-job.ts';
import { aboutJob } from './job-refusals.ts';
import { number } from './number-options.ts';
import { printJson, printLine } from './output.ts';
import { callStation, sendJson } from './station-calls.ts';

interface Flags extends WhichStation {
  readonly json: boolean;
  readonly mm?: number;
  readonly points?: readonly [SharePoint, SharePoint];
  readonly gone: boolean;
}

/** What `setside job scale` takes; the command comes with its words. */
export function withScale(command: Command, leave: (code: number) => void): Command {
  return command
    .option(
      '--mm <mm>',
      'between the points; without points the target in the frame is meant, and this is the way from the left edge of its first patch to the left edge of its sixth: measure it with a ruler',
      number(0.001, 100_000),
    )
    .option('--points <x,y,x,y>', 'two points of the frame, in per cent of its width and height', pointsOf)
    .option('--gone', 'nobody says how large things are any more', false)
    .action(async (code: string, frame: string, flags: Flags) => {
      const { shown, line } = await tellScale(await findStation(flags), code, frame, flags);
      if (flags.json) printJson(shown);
      else printLine(line, false);
      leave(exitCodes.done);
    });
}

/** `words`: the frame's name or id; its shot is the one that is meant. Rejects `no-frame`, `several-frames`, `no-shot`. */
async function tellScale(
  station: string,
  code: string,
  words: string,
  { mm, points, gone }: Flags,
): Promise<{ readonly shown: Job; readonly line: string }> {
  const path = `/api/v1/jobs/${encodeURIComponent(code)}`;
  await aboutJob(code, callStation(station, path));
  const { id, name, shot } = frameNamed(code, await framesOf(station, code), words);
  if (shot === null)
    throw new SetsideError('no-shot', `${name} belongs to no shot of job ${code}`, {
      cure: 'A scale is told for a shot: move the frame to one first.',
    });
  const address = `${path}/shots/${encodeURIComponent(shot)}/scale`;
  if (!gone && mm === undefined)
    throw new SetsideError('bad-value', 'How long is it on the set?', {
      cure: 'Say --mm and the millimetres.',
    });
  const answer = gone
    ? callStation(station, address, { method: 'DELETE' })
    : sendJson(station, 'PUT', address, { frame: id, mm, ...(points === undefined ? {} : { points }) });
  const shown = job.parse(await (await aboutJob(code, answer)).json());
  const scale = shown.shots.find((each) => each.id === shot)?.scale ?? null;
  return { shown, line: scaleToldPhrase(scale, name) };
}

function pointsOf(text: string): readonly [SharePoint, SharePoint] {
  const figures = text
    .split(',')
    .map((part) => (/^\d{1,3}(\.\d{1,3})?$/.test(part.trim()) ? Number(part) / 100 : Number.NaN));
  const [ax = Number.NaN, ay = Number.NaN, bx = Number.NaN, by = Number.NaN] = figures;
  if (figures.length !== 4 || !figures.every((share) => share >= 0 && share <= 1))
    throw new InvalidArgumentError('expected four numbers from 0 to 100, such as 20,50,80,50');
  return [
    { x: ax, y: ay },
    { x: bx, y: by },
  ];
}
