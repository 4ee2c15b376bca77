import { Command } from 'commander';
import { errorCode, SetsideError } from '../base/index.ts';
import {
  job,
  type MetadataSheetEntry,
  type MetadataSheets,
  metadataSheetEntry,
  metadataSheetList,
} from '../contract/index.ts';
import { type MetadataSheet, nameKey } from '../deliver/index.ts';
import { metadataLabels, sentence } from '../words/index.ts';
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
    const listed = await allOf(await findStation(flags));
    const { sheets, broken } = listed;
    if (flags.json) printJson(listed);
    else for (const { title } of sheets) printLine(title, false);
    if (sheets.length === 0) printLine('No sheet is kept: setside metadata keep keeps one.', flags.json);
    for (const { file, findings } of broken)
      printLine(metadataLabels.broken(file, findings.map((each) => sentence(each)).join(' ')), flags.json);
    leave(broken.length === 0 ? exitCodes.done : exitCodes.no);
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
      else printLine(`Forgotten: ${kept}. To have it back: setside metadata bring-back "${kept}"`, false);
      leave(exitCodes.done);
    },
  );
  subcommand(
    command,
    'bring-back <title>',
    'brings back the sheet of this title that was forgotten last',
  ).action(async (title: string, flags: Flags) => {
    const back = await broughtBack(await findStation(flags), title.trim());
    if (flags.json) printJson(back);
    else printLine(`Kept again: ${back.title}`, false);
    leave(exitCodes.done);
  });
  return command;
}

function subcommand(parent: Command, words: string, description: string): Command {
  return withStation(parent.command(words).description(description)).option(
    '--json',
    'one JSON document on standard output',
    false,
  );
}

async function allOf(station: string): Promise<MetadataSheets> {
  return metadataSheetList.parse(await (await callStation(station, '/api/v1/metadata')).json());
}

/** Errors: `no-such-sheet`. */
async function oneOf(station: string, title: string): Promise<MetadataSheetEntry> {
  const found = (await allOf(station)).sheets.find((each) => nameKey(each.title) === nameKey(title.trim()));
  if (found !== undefined) return found;
  throw new SetsideError('no-such-sheet', `No metadata sheet is kept as ${title}`, {
    cure: 'setside metadata list shows those there are.',
  });
}

/** Errors: `no-such-sheet`, `sheet-there`, `too-many-sheets`. */
async function broughtBack(station: string, title: string): Promise<MetadataSheetEntry> {
  const path = `/api/v1/metadata/${encodeURIComponent(title)}/back`;
  const answer = await callStation(station, path, { method: 'POST' }).catch((thrown: unknown) => {
    if (errorCode(thrown) !== 'not-found') throw thrown;
    throw new SetsideError('no-such-sheet', `No metadata sheet was forgotten as ${title}`, {
      cure: 'setside metadata list shows those that are kept; forgotten ones lie in metadata/forgotten/ of the home.',
    });
  });
  return metadataSheetEntry.parse(await answer.json());
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
