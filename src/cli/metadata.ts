import { Command } from 'commander';
import { SetsideError } from '../base/index.ts';
import { job, type MetadataSheetEntry, metadataSheetEntry, metadataSheetList } from '../contract/index.ts';
import { type MetadataSheet, nameKey } from '../deliver/index.ts';
import { exitCodes } from './exit-codes.ts';
import { findStation, type WhichStation, withStation } from './find-station.ts';
import { aboutJob } from './job-refusals.ts';
import { printJson, printLine } from './output.ts';
import { sheetOfFile, sheetOfText } from './sheet-of-file.ts';
import { callStation, sendJson } from './station-calls.ts';

interface Flags extends WhichStation {
  readonly json: boolean;
}

interface KeepFlags extends Flags {
  readonly job?: string;
  readonly as?: string;
}

/** `setside metadata`: what is written into the files of deliveries, kept by a title for further jobs. Asks a running station. */
export function metadataCommand(leave: (code: number) => void): Command {
  const command = new Command('metadata').description(
    'Metadata sheets that are kept for further jobs: what is written into the files of deliveries.',
  );
  subcommand(command, 'list', 'the titles of every kept sheet').action(async (flags: Flags) => {
    const sheets = await allOf(await findStation(flags));
    if (flags.json) printJson(sheets);
    else for (const { title } of sheets) printLine(title, false);
    if (sheets.length === 0) printLine('No sheet is kept: setside metadata keep keeps one.', flags.json);
    leave(exitCodes.done);
  });
  subcommand(command, 'show <title>', 'prints a sheet, as setside deliver --metadata takes it').action(
    async (title: string, flags: Flags) => {
      printLine((await oneOf(await findStation(flags), title)).text, false);
      leave(exitCodes.done);
    },
  );
  subcommand(command, 'keep [file]', 'keeps a sheet, in the place of the one that has its title')
    .option('--job <code>', 'the sheet of this job, in the place of a file')
    .option('--as <title>', 'under this title; left out: the one that stands in it')
    .action(async (file: string | undefined, flags: KeepFlags) => {
      const station = await findStation(flags);
      const sheet = await sheetToKeep(station, file, flags.job);
      const metadata = flags.as === undefined ? sheet : { ...sheet, title: flags.as };
      const answer = await sendJson(station, 'POST', '/api/v1/metadata', { metadata });
      const kept = metadataSheetEntry.parse(await answer.json());
      if (flags.json) printJson(kept);
      else printLine(`Kept: ${kept.title}`, false);
      leave(exitCodes.done);
    });
  subcommand(command, 'use <title> <job>', 'has a job say what a kept sheet says').action(
    async (title: string, code: string, flags: Flags) => {
      const station = await findStation(flags);
      const { text, title: kept } = await oneOf(station, title);
      const changed = await aboutJob(code, sendJson(station, 'PATCH', jobPath(code), { metadata: text }));
      if (flags.json) printJson(job.parse(await changed.json()));
      else printLine(`${code} says what ${kept} says. Take it back on the page, or use another.`, false);
      leave(exitCodes.done);
    },
  );
  subcommand(command, 'forget <title>', 'forgets a kept sheet; jobs that use it have their own').action(
    async (title: string, flags: Flags) => {
      const station = await findStation(flags);
      const { title: kept } = await oneOf(station, title);
      await callStation(station, `/api/v1/metadata/${encodeURIComponent(kept)}`, { method: 'DELETE' });
      if (flags.json) printJson({ forgotten: kept });
      else printLine(`Forgotten: ${kept}`, false);
      leave(exitCodes.done);
    },
  );
  return command;
}

function subcommand(parent: Command, words: string, description: string): Command {
  return withStation(parent.command(words).description(description)).option(
    '--json',
    'one JSON document on standard output',
    false,
  );
}

async function allOf(station: string): Promise<readonly MetadataSheetEntry[]> {
  return metadataSheetList.parse(await (await callStation(station, '/api/v1/metadata')).json()).sheets;
}

/** Errors: `no-such-sheet`. */
async function oneOf(station: string, title: string): Promise<MetadataSheetEntry> {
  const found = (await allOf(station)).find((each) => nameKey(each.title) === nameKey(title.trim()));
  if (found !== undefined) return found;
  throw new SetsideError('no-such-sheet', `No metadata sheet is kept as ${title}`, {
    cure: 'setside metadata list shows those there are.',
  });
}

/** Errors: `bad-option`, `bad-metadata`, `no-metadata`. */
async function sheetToKeep(
  station: string,
  file: string | undefined,
  code: string | undefined,
): Promise<MetadataSheet> {
  if (file !== undefined && code === undefined) return sheetOfFile(file);
  if (code === undefined || file !== undefined) {
    throw new SetsideError('bad-option', 'a file is kept, or the sheet of a job', {
      cure: 'Give one of the two: setside metadata keep FILE, or setside metadata keep --job CODE.',
    });
  }
  const { metadata } = job.parse(await (await aboutJob(code, callStation(station, jobPath(code)))).json());
  if (metadata !== '') return sheetOfText(metadata, code);
  throw new SetsideError('no-metadata', `Nobody said what is written into the files of ${code}`, {
    cure: 'Write it on the job’s page, or keep a file: setside metadata keep FILE.',
  });
}

function jobPath(code: string): string {
  return `/api/v1/jobs/${encodeURIComponent(code)}`;
}
