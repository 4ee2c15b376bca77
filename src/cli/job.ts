import { readFile, writeFile } from 'node:fs/promises';
import { extname } from 'node:path';
import { Command, Option } from 'commander';
import { errorCode, SetsideError } from '../base/index.ts';
import { type ImportReport, importReport, type Job, job, jobList } from '../contract/index.ts';
import { targetEditions, toleranceSets } from '../facts/index.ts';
import { exitCodes } from './exit-codes.ts';
import { findStation, type WhichStation, withStation } from './find-station.ts';
import { reportLines, showJob, showWholeJob } from './job-lines.ts';
import { aboutJob } from './job-refusals.ts';
import { withScale } from './job-scale.ts';
import { countTarget } from './job-target.ts';
import { type JobWordFlags, jobWordsIn, withJobWords } from './job-words.ts';
import { printJson, printLine } from './output.ts';
import { callStation, sendJson } from './station-calls.ts';

interface ColourFlags {
  readonly targetEdition?: string;
  readonly toleranceSet?: string;
}

interface Flags extends WhichStation {
  readonly json: boolean;
}

/**
 * `setside job`: jobs and shot lists of a running station, by its own calls. Not by its files: the journal has one writer,
 * and the pages have to hear of a change.
 */
export function jobCommand(leave: (code: number) => void): Command {
  const command = new Command('job').description('Jobs and shot lists of a running station.');
  subcommand(command, 'list', 'every job, the newest opened first').action(async (flags: Flags) => {
    const jobs = await everyJob(await findStation(flags));
    for (const each of jobs) showJob(each, flags.json);
    if (jobs.length === 0) printLine('No job yet: setside job open CODE makes one.', flags.json);
    leave(exitCodes.done);
  });
  subcommand(command, 'show <code>', 'one job with its shots and their ids').action(
    async (code: string, flags: Flags) => {
      showWholeJob(await load(code, await findStation(flags)), flags.json);
      leave(exitCodes.done);
    },
  );
  withJobWords(
    subcommand(command, 'open <code>', 'frames go to it from now on; one that is not there is made'),
  )
    .option('--copy-of <code>', 'an earlier job whose shots and limits a new one has')
    .action(async (code: string, flags: Flags & NewJobFlags) => {
      showJob(await open(code, await findStation(flags), flags), flags.json);
      leave(exitCodes.done);
    });
  subcommand(command, 'colour <code>', 'how colour is judged in it')
    .addOption(
      new Option(
        '--target-edition <edition>',
        'when the target on the set was made; any: recognised where its colours tell',
      ).choices([...targetEditions, 'any']),
    )
    .addOption(
      new Option('--tolerance-set <name>', 'a published set of limits; none: the job’s own figures').choices([
        ...toleranceSets.map(({ name }) => name),
        'none',
      ]),
    )
    .action(async (code: string, flags: Flags & ColourFlags) => {
      const { targetEdition: edition, toleranceSet: set } = flags;
      const wish = {
        ...(edition === undefined ? {} : { targetEdition: edition === 'any' ? null : edition }),
        ...(set === undefined ? {} : { toleranceSet: set === 'none' ? null : set }),
      };
      showJob(await patch(code, await findStation(flags), wish), flags.json);
      leave(exitCodes.done);
    });
  subcommand(
    command,
    'target <code> <frame>',
    'raws of its camera are balanced on the target in it from then on',
  )
    .option('--gone', 'it counts no longer', false)
    .action(async (code: string, frame: string, flags: Flags & { readonly gone: boolean }) => {
      const { shown, lines } = await countTarget(await findStation(flags), code, frame, flags.gone);
      if (flags.json) printJson(shown);
      else for (const line of lines) printLine(line, false);
      leave(exitCodes.done);
    });
  withScale(
    subcommand(
      command,
      'scale <code> <frame>',
      'how large things are in the pictures of the frame’s shot, by the target in it or by two points',
    ),
    leave,
  );
  withJobWords(subcommand(command, 'change <code>', 'its title, client, days, place and notes')).action(
    async (code: string, flags: Flags & JobWordFlags) => {
      showJob(await patch(code, await findStation(flags), wordsWanted(flags)), flags.json);
      leave(exitCodes.done);
    },
  );
  for (const [words, state, description] of [
    ['lay-aside <code>', 'waiting', 'frames do not go to it any more; a closed one is taken up again'],
    ['close <code>', 'closed', 'it is finished, and nothing but marks changes until it is taken up again'],
  ] as const) {
    subcommand(command, words, description).action(async (code: string, flags: Flags) => {
      showJob(await patch(code, await findStation(flags), { state }), flags.json);
      leave(exitCodes.done);
    });
  }
  subcommand(command, 'import <code> <file>', 'take a shot list in: CSV, or JSON by the ending .json')
    .option('--preview', 'only say what would be changed', false)
    .action(async (code: string, file: string, flags: Flags & { readonly preview: boolean }) => {
      const report = await importFile(code, file, await findStation(flags), flags.preview);
      if (flags.json) printJson(report);
      else for (const line of reportLines(report)) printLine(line, false);
      leave(report.badLines + report.findings.length === 0 ? exitCodes.done : exitCodes.no);
    });
  subcommand(command, 'export <code> [file]', 'the shot list as CSV, or as JSON by the ending .json')
    .addOption(new Option('--format <format>', 'whatever the ending').choices(['csv', 'json']))
    .option('--replace', 'replace what lies under the name of the file', false)
    .action(async (code: string, file: string | undefined, flags: ExportFlags) => {
      const format = flags.format ?? (isJson(file) || (flags.json && file === undefined) ? 'json' : 'csv');
      const bytes = await exported(code, format, await findStation(flags));
      if (file === undefined) process.stdout.write(bytes);
      else await writeList(file, bytes, flags.replace);
      leave(exitCodes.done);
    });
  return command;
}

interface ExportFlags extends Flags {
  readonly format?: string;
  readonly replace: boolean;
}

interface NewJobFlags extends JobWordFlags {
  readonly copyOf?: string;
}

function subcommand(parent: Command, words: string, description: string): Command {
  return withStation(parent.command(words).description(description)).option(
    '--json',
    'JSON on standard output, one document for each job',
    false,
  );
}

async function everyJob(station: string): Promise<readonly Job[]> {
  return jobList.parse(await (await callStation(station, '/api/v1/jobs')).json()).jobs;
}

async function load(code: string, station: string): Promise<Job> {
  return job.parse(await (await aboutJob(code, callStation(station, pathOf(code)))).json());
}

async function open(code: string, station: string, flags: NewJobFlags): Promise<Job> {
  const words = jobWordsIn(flags);
  const { copyOf } = flags;
  const known = (await everyJob(station)).some((each) => each.code === code);
  if (!known)
    return make(station, { code, ...words, ...(copyOf === undefined ? {} : { copyOf }), open: true });
  if (copyOf !== undefined) {
    throw new SetsideError('job-exists', `Job ${code} is there already, so it is copied from none`, {
      cure: `Leave --copy-of out to open it, or give the new job another code.`,
    });
  }
  // Opening is not changing: who gives a title thinks that the job is new, or means to rename it, and should say so.
  if (Object.keys(words).length > 0) {
    throw new SetsideError('job-exists', `Job ${code} is there already; opening it changes no words of it`, {
      cure: `setside job change ${code} puts them; without them setside job open ${code} opens it.`,
    });
  }
  return patch(code, station, { state: 'open' });
}

async function make(
  station: string,
  wish: { readonly code: string; readonly copyOf?: string; readonly open: true },
): Promise<Job> {
  const { code, copyOf } = wish;
  try {
    return job.parse(await (await sendJson(station, 'POST', '/api/v1/jobs', wish)).json());
  } catch (thrown) {
    if (errorCode(thrown) !== 'no-job') return await aboutJob(code, Promise.reject(thrown));
    throw new SetsideError('no-job', `There is no job ${copyOf ?? ''} to copy, so ${code} was not made`, {
      cause: thrown,
      cure: 'setside job list shows those there are.',
    });
  }
}

async function patch(code: string, station: string, change: object): Promise<Job> {
  const answer = await aboutJob(code, sendJson(station, 'PATCH', pathOf(code), change));
  return job.parse(await answer.json());
}

function wordsWanted(flags: JobWordFlags): object {
  const words = jobWordsIn(flags);
  if (Object.keys(words).length > 0) return words;
  throw new SetsideError('bad-option', 'nothing was said that should change', {
    cure: 'Say what, such as --title "Autumn catalogue"; --help names the rest.',
  });
}

async function importFile(
  code: string,
  file: string,
  station: string,
  preview: boolean,
): Promise<ImportReport> {
  const path = `${pathOf(code)}/shots/import${preview ? '?preview=1' : ''}`;
  const body = await readFile(file).catch((thrown: NodeJS.ErrnoException) => {
    // Reading a folder fails without saying which.
    throw thrown.code === 'EISDIR' ? Object.assign(thrown, { path: file }) : thrown;
  });
  const answer = await aboutJob(
    code,
    callStation(station, path, {
      method: 'POST',
      headers: { 'content-type': isJson(file) ? 'application/json' : 'text/csv' },
      body,
    }),
  );
  return importReport.parse(await answer.json());
}

async function exported(code: string, format: string, station: string): Promise<Buffer> {
  const path = `${pathOf(code)}/shots/export?format=${encodeURIComponent(format)}`;
  return Buffer.from(await (await aboutJob(code, callStation(station, path))).arrayBuffer());
}

function pathOf(code: string): string {
  return `/api/v1/jobs/${encodeURIComponent(code)}`;
}

function isJson(file: string | undefined): boolean {
  return file !== undefined && extname(file).toLowerCase() === '.json';
}

/** Replaces nothing unless it is asked to: a list that somebody works on is not written over. */
async function writeList(file: string, bytes: Uint8Array, replace: boolean): Promise<void> {
  await writeFile(file, bytes, { flag: replace ? 'w' : 'wx' }).catch((cause: NodeJS.ErrnoException) => {
    if (cause.code === 'ENOENT') {
      throw new SetsideError('no-folder', `there is no folder for ${file}`, {
        cause,
        cure: 'Make it first, or choose another.',
      });
    }
    if (cause.code !== 'EEXIST') throw cause;
    throw new SetsideError('file-exists', `${file} is there already`, {
      cause,
      cure: 'Choose another name, or say --replace.',
    });
  });
}
