import type { Command } from 'commander';
import { job, type Look, look as lookShape, lookUsed } from '../contract/index.ts';
import { plainText } from '../words/index.ts';
import { dayAndTime } from './day-and-time.ts';
import { exitCodes } from './exit-codes.ts';
import { findStation, type WhichStation, withStation } from './find-station.ts';
import { frameNamed } from './frame-named.ts';
import { framesOf } from './frames-of-job.ts';
import { aboutJob } from './job-refusals.ts';
import { keptLooks, lookNamed } from './kept-look-calls.ts';
import { readLookFile } from './look-files.ts';
import { hashPhrase } from './look-report.ts';
import { printJson, printLine } from './output.ts';
import { shotNamed } from './shot-named.ts';
import { callStation, sendJson } from './station-calls.ts';

interface Flags extends WhichStation {
  readonly json: boolean;
}

interface UseFlags extends Flags {
  readonly job: string;
  readonly shot: readonly string[];
  readonly frame: readonly string[];
  readonly whole: boolean;
}

const whichLook = 'its name, name and version as in "Evening 2", or its id';

/** The looks that a running station keeps, by its own calls: the journal has one writer, and the pages have to hear. */
export function addKeptLooks(parent: Command, leave: (code: number) => void): void {
  subcommand(parent, 'list', 'The looks that a running station keeps: of each name the newest version.')
    .option('--all', 'every version, those laid aside too', false)
    .action(async (flags: Flags & { readonly all: boolean }) => {
      const looks = await keptLooks(await findStation(flags));
      const shown = flags.all ? looks : newestOfEach(looks);
      for (const each of shown) showLook(each, flags.json);
      if (shown.length === 0) printLine('No look is kept yet: setside look save FILE keeps one.', flags.json);
      leave(exitCodes.done);
    });
  subcommand(parent, 'show <look>', `A look that is kept, as JSON; ${whichLook}.`).action(
    async (words: string, flags: Flags) => {
      const found = lookNamed(await keptLooks(await findStation(flags)), words);
      if (flags.json) printJson(found);
      else process.stdout.write(`${JSON.stringify(found.document, null, 2)}\n`);
      leave(exitCodes.done);
    },
  );
  subcommand(parent, 'save <file>', 'Keeps a look as a new version of its title: a look, or an ASC CDL.')
    .option('--name <name>', 'in place of its title')
    .action(async (file: string, flags: Flags & { readonly name?: string }) => {
      await save(file, await findStation(flags), flags);
      leave(exitCodes.done);
    });
  subcommand(parent, 'use <look>', `Gives a job, shots or frames a look that is kept; ${whichLook}.`)
    .requiredOption('--job <code>', 'the job; without a shot or a frame it is the look of the whole job')
    .option('--shot <shot>', 'a shot of the job, by name or id; may be said several times', many, [])
    .option('--frame <frame>', 'a frame of the job, by name or id; may be said several times', many, [])
    .option('--whole', 'the whole job too, beside its shots and frames', false)
    .action(async (words: string, flags: UseFlags) => {
      await use(words, await findStation(flags), flags);
      leave(exitCodes.done);
    });
  for (const [name, path, description] of [
    ['lay-aside <look>', 'aside', 'Offers a version no longer; whatever it was chosen for keeps it.'],
    ['put-back <look>', 'back', 'Offers a version again that was laid aside.'],
  ] as const) {
    subcommand(parent, name, description).action(async (words: string, flags: Flags) => {
      const station = await findStation(flags);
      const { id } = lookNamed(await keptLooks(station), words);
      const answer = await sendJson(station, 'POST', `/api/v1/looks/${encodeURIComponent(id)}/${path}`, {});
      showLook(lookShape.parse(await answer.json()), flags.json);
      leave(exitCodes.done);
    });
  }
}

function subcommand(parent: Command, words: string, description: string): Command {
  return withStation(parent.command(words).description(description)).option(
    '--json',
    'JSON on standard output, one document for each look',
    false,
  );
}

const many = (one: string, before: readonly string[]): readonly string[] => [...before, one];

/** Listed by name, the newest first: the first of each that is not laid aside. */
function newestOfEach(looks: readonly Look[]): readonly Look[] {
  const byName = new Map<string, Look>();
  for (const each of looks) {
    const name = each.name.toLowerCase();
    if (!each.laidAside && !byName.has(name)) byName.set(name, each);
  }
  return [...byName.values()];
}

function showLook(look: Look, json: boolean): void {
  if (json) {
    printJson(look);
    return;
  }
  const { name, version, hash, savedAt, savedBy, laidAside } = look;
  const when = dayAndTime(Date.parse(savedAt));
  printLine(
    plainText(
      `${name} ${version}  ${hashPhrase(hash)}  saved ${when} by ${savedBy}${laidAside ? ', laid aside' : ''}`,
    ),
    false,
  );
}

async function save(
  file: string,
  station: string,
  { name, json }: { readonly name?: string; readonly json: boolean },
): Promise<void> {
  const document = await readLookFile(file);
  const titled = name === undefined ? document : { ...document, title: name };
  const answer = await sendJson(station, 'POST', '/api/v1/looks', titled);
  const saved = lookShape.parse(await answer.json());
  if (json) printJson(saved);
  else if (answer.status === 201) printLine(plainText(`Saved as ${saved.name} ${saved.version}.`), false);
  else printLine(plainText(`It is there already, as ${saved.name} ${saved.version}.`), false);
}

async function use(words: string, station: string, flags: UseFlags): Promise<void> {
  const { job: code } = flags;
  const look = lookNamed(await keptLooks(station), words);
  const path = `/api/v1/jobs/${encodeURIComponent(code)}`;
  const { shots: listed } = job.parse(await (await aboutJob(code, callStation(station, path))).json());
  const shots = flags.shot.map((shot) => shotNamed(code, listed, shot));
  const known = flags.frame.length === 0 ? [] : await framesOf(station, code);
  const frames = flags.frame.map((frame) => frameNamed(code, known, frame).id);
  const ofJob = flags.whole || shots.length > 0 || frames.length === 0;
  const body = {
    ...(ofJob ? { job: code } : {}),
    ...(shots.length > 0 ? { shots } : {}),
    ...(flags.whole ? { whole: true } : {}),
    ...(frames.length > 0 ? { frames } : {}),
  };
  const call = sendJson(station, 'POST', `/api/v1/looks/${encodeURIComponent(look.id)}/use`, body);
  const { changed } = lookUsed.parse(await (await aboutJob(code, call)).json());
  if (flags.json) printJson({ look: look.id, changed });
  else printLine(plainText(`${look.name} ${look.version}: ${changed} changed.`), false);
}
