import { readFile, writeFile } from 'node:fs/promises';
import { extname } from 'node:path';
import { Command } from 'commander';
import { SetsideError } from '../base/index.ts';
import { type ImportReport, importReport, type Job, job, jobList } from '../contract/index.ts';
import { jobPageLabels, sentence } from '../words/index.ts';
import { exitCodes } from './exit-codes.ts';
import { findStation, type WhichStation, withStation } from './find-station.ts';
import { printJson, printLine } from './output.ts';
import { callStation, sendJson } from './station-calls.ts';

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
    const { jobs } = jobList.parse(
      await (await callStation(await findStation(flags), '/api/v1/jobs')).json(),
    );
    for (const each of jobs) show(each, flags.json);
    leave(exitCodes.done);
  });
  subcommand(command, 'open <code>', 'frames go to it from now on; one that is not there is made')
    .option('--title <text>', 'title of a new job')
    .option('--client <text>', 'client of a new job')
    .option('--copy-of <code>', 'an earlier job whose shots and limits a new one has')
    .action(async (code: string, flags: Flags & NewJobFlags) => {
      show(await open(code, await findStation(flags), flags), flags.json);
      leave(exitCodes.done);
    });
  subcommand(command, 'close <code>', 'it is finished').action(async (code: string, flags: Flags) => {
    show(await patch(code, await findStation(flags), { state: 'closed' }), flags.json);
    leave(exitCodes.done);
  });
  subcommand(command, 'import <code> <file>', 'take a shot list in: CSV, or JSON by the ending .json')
    .option('--preview', 'only say what would be changed', false)
    .action(async (code: string, file: string, flags: Flags & { readonly preview: boolean }) => {
      const report = await importFile(code, file, await findStation(flags), flags.preview);
      if (flags.json) printJson(report);
      else for (const line of reportLines(report)) printLine(line, false);
      leave(report.badLines + report.findings.length === 0 ? exitCodes.done : exitCodes.no);
    });
  subcommand(command, 'export <code> [file]', 'the shot list as CSV, or as JSON by the ending .json')
    .option('--format <format>', 'csv or json, whatever the ending')
    .action(async (code: string, file: string | undefined, flags: Flags & { readonly format?: string }) => {
      const format = flags.format ?? (isJson(file) || (flags.json && file === undefined) ? 'json' : 'csv');
      const answer = await callStation(
        await findStation(flags),
        `${pathOf(code)}/shots/export?format=${encodeURIComponent(format)}`,
      );
      const bytes = Buffer.from(await answer.arrayBuffer());
      if (file === undefined) process.stdout.write(bytes);
      else await writeNew(file, bytes);
      leave(exitCodes.done);
    });
  return command;
}

interface NewJobFlags {
  readonly title?: string;
  readonly client?: string;
  readonly copyOf?: string;
}

function subcommand(parent: Command, words: string, description: string): Command {
  return withStation(parent.command(words).description(description)).option(
    '--json',
    'JSON on standard output, one document for each job',
    false,
  );
}

async function open(code: string, station: string, { title, client, copyOf }: NewJobFlags): Promise<Job> {
  const { jobs } = jobList.parse(await (await callStation(station, '/api/v1/jobs')).json());
  if (jobs.some((known) => known.code === code)) return patch(code, station, { state: 'open' });
  const made = await sendJson(station, 'POST', '/api/v1/jobs', {
    code,
    title,
    client,
    copyOf,
    open: true,
  });
  return job.parse(await made.json());
}

async function patch(code: string, station: string, change: object): Promise<Job> {
  return job.parse(await (await sendJson(station, 'PATCH', pathOf(code), change)).json());
}

async function importFile(
  code: string,
  file: string,
  station: string,
  preview: boolean,
): Promise<ImportReport> {
  const path = `${pathOf(code)}/shots/import${preview ? '?preview=1' : ''}`;
  const answer = await callStation(station, path, {
    method: 'POST',
    headers: { 'content-type': isJson(file) ? 'application/json' : 'text/csv' },
    body: await readFile(file),
  });
  return importReport.parse(await answer.json());
}

function pathOf(code: string): string {
  return `/api/v1/jobs/${encodeURIComponent(code)}`;
}

function isJson(file: string | undefined): boolean {
  return file !== undefined && extname(file).toLowerCase() === '.json';
}

/** Replaces nothing: a list that somebody works on is not written over. */
async function writeNew(file: string, bytes: Uint8Array): Promise<void> {
  await writeFile(file, bytes, { flag: 'wx' }).catch((cause: NodeJS.ErrnoException) => {
    if (cause.code !== 'EEXIST') throw cause;
    throw new SetsideError('file-exists', `${file} is there already`, {
      cause,
      cure: 'Choose another name.',
    });
  });
}

function show(shown: Job, json: boolean): void {
  if (json) {
    printJson(shown);
    return;
  }
  const shots = `${shown.shots.length} ${shown.shots.length === 1 ? 'shot' : 'shots'}`;
  const words = [shown.title, shown.client].filter((text) => text !== '').join(', ');
  printLine(`${shown.code}  ${shown.state}  ${shots}${words === '' ? '' : `  ${words}`}`, false);
}

function reportLines(report: ImportReport): string[] {
  const { lines, bad, badLines, findings, unknownColumns, encoding, guessed, preview, reorders } = report;
  const count = (what: string): number => lines.filter((line) => line.what === what).length;
  return [
    ...findings.map((finding) => sentence(finding)),
    ...bad.map(({ finding }) => sentence(finding)),
    ...(badLines > bad.length ? [`${badLines - bad.length} more lines cannot be read.`] : []),
    ...(unknownColumns.length > 0 ? [`Columns that were left out: ${unknownColumns.join(', ')}.`] : []),
    ...(guessed ? [`Read as ${encoding}, which is a guess: look at the letters with accents.`] : []),
    ...lines.flatMap(({ line, name, changes }) =>
      changes.map(
        ({ field, from, to }) => `Line ${line}, ${name}: ${jobPageLabels.fieldChanges(field, from, to)}`,
      ),
    ),
    ...(reorders ? [jobPageLabels.reorders] : []),
    `${preview ? 'Would be' : 'Done'}: ${count('added')} added, ${count('changed')} changed, ${count('same')} as they were.`,
  ];
}
