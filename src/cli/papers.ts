import { setTimeout as pause } from 'node:timers/promises';
import { Command, InvalidArgumentError, Option } from 'commander';
import { SetsideError } from '../base/index.ts';
import { jobReport, papersUnderWay } from '../contract/index.ts';
import { marks } from '../facts/index.ts';
import { framesPhrase } from '../words/index.ts';
import { exitCodes } from './exit-codes.ts';
import { findStation, type WhichStation, withStation } from './find-station.ts';
import { aboutJob } from './job-refusals.ts';
import { printJson, printLine } from './output.ts';
import { callStation } from './station-calls.ts';
import { writeNew, writeNewParts } from './write-new.ts';

interface Flags extends WhichStation {
  readonly to?: string;
  readonly paper: string;
  readonly json: boolean;
}

interface SheetFlags extends Flags {
  readonly columns: number;
  readonly shot?: string;
  readonly marks?: string;
  readonly client: boolean;
}

/** How often the station is asked how far the sheet is, ms. */
const askMs = 500;

/** `setside sheet JOB`: the contact sheet of a job as PDF, drawn by the running station. */
export function sheetCommand(leave: (code: number) => void): Command {
  return paperCommand('sheet', 'The contact sheet of a job, as PDF to print; heroes first.')
    .option('--columns <count>', 'frames beside each other, 2 to 6', columnsOf, 4)
    .option('--shot <id>', 'only this shot; setside job show lists their ids')
    .option('--marks <list>', `only frames with these marks, parted by commas: ${marks.join(', ')}`)
    .option('--client', 'a copy for the client: what guests see, without verdicts', false)
    .action(async (job: string, flags: SheetFlags) => {
      const query = new URLSearchParams({
        paper: flags.paper,
        columns: String(flags.columns),
        ...(flags.shot === undefined ? {} : { shot: flags.shot }),
        ...(flags.marks === undefined ? {} : { marks: flags.marks }),
        ...(flags.client ? { copy: 'client' } : {}),
      });
      const station = await findStation(flags);
      const address = `/api/v1/jobs/${encodeURIComponent(job)}`;
      // Drawn while it is sent: two thousand frames take minutes, and what stands still is told by the line itself.
      const whole = new AbortController();
      const call = callStation(station, `${address}/contact-sheet.pdf?${query}`, { signal: whole.signal });
      const answer = await aboutJob(job, call);
      const [frames, pages] = ['setside-frames', 'setside-pages'].map((name) =>
        Number(answer.headers.get(name)),
      );
      const file = flags.to ?? `${job}-contact-sheet.pdf`;
      const told = new AbortController();
      const telling = tellProgress(station, `${address}/papers`, told.signal);
      try {
        await writeNewParts(file, wholePdf(answer));
      } catch (thrown) {
        whole.abort();
        throw thrown;
      } finally {
        told.abort();
        await telling;
      }
      if (flags.json) printJson({ file, frames, pages });
      else
        printLine(
          `${file} is written: ${framesPhrase(Number(frames))} on ${pages === 1 ? '1 page' : `${pages} pages`}.`,
          false,
        );
      leave(exitCodes.done);
    });
}

/** `setside report JOB`: how the job went, on one page. */
export function reportCommand(leave: (code: number) => void): Command {
  return paperCommand('report', 'How a job went, on one page, as PDF to print.')
    .option('--figures', 'the same as figures, JSON on standard output, and no PDF', false)
    .action(async (job: string, flags: Flags & { readonly figures: boolean }) => {
      const station = await findStation(flags);
      if (flags.figures) {
        const path = `/api/v1/jobs/${encodeURIComponent(job)}/report`;
        const figures = await aboutJob(job, callStation(station, path));
        printJson(jobReport.parse(await figures.json()));
        leave(exitCodes.done);
        return;
      }
      const address = `/api/v1/jobs/${encodeURIComponent(job)}/report.pdf?paper=${flags.paper}`;
      const answer = await aboutJob(job, callStation(station, address));
      const file = flags.to ?? `${job}-report.pdf`;
      await writeNew(file, new Uint8Array(await answer.arrayBuffer()));
      if (flags.json) printJson({ file });
      else printLine(`${file} is written.`, false);
      leave(exitCodes.done);
    });
}

function paperCommand(name: string, description: string): Command {
  return withStation(new Command(name).description(description))
    .argument('<job>', 'code of the job')
    .option('--to <file>', 'where to write it; default JOB-… .pdf here')
    .addOption(new Option('--paper <size>', 'what it is printed on').choices(['a4', 'letter']).default('a4'))
    .option('--json', 'JSON on standard output: where it was written', false);
}

function columnsOf(text: string): number {
  const columns = Number(text);
  if (Number.isInteger(columns) && columns >= 2 && columns <= 6) return columns;
  throw new InvalidArgumentError('expected a whole number from 2 to 6');
}

/** The bytes as they come. Throws `sheet-broken-off` where they end before the PDF does (ISO 32000-1 section 7.5.5: `%%EOF`). */
async function* wholePdf(answer: Response): AsyncGenerator<Uint8Array> {
  let tail: Uint8Array = new Uint8Array();
  try {
    for await (const part of answer.body ?? []) {
      yield part;
      tail = Buffer.concat([tail, part]).subarray(-16);
    }
  } catch (cause) {
    throw brokenOff(cause);
  }
  if (!Buffer.from(tail).includes('%%EOF')) throw brokenOff(undefined);
}

function brokenOff(cause: unknown): SetsideError {
  return new SetsideError('sheet-broken-off', 'The sheet broke off in the middle', {
    ...(cause === undefined ? {} : { cause }),
    cure: 'See whether the station still runs, then try again: pictures that were drawn are kept and come quickly.',
  });
}

/** Says on standard error how far it is, until there is nothing more to say. */
async function tellProgress(station: string, address: string, signal: AbortSignal): Promise<void> {
  let before = '';
  while (!signal.aborted) {
    await pause(askMs, undefined, { signal }).catch(() => {});
    if (signal.aborted) return;
    const answer = await callStation(station, address, { signal }).catch(() => null);
    const read = papersUnderWay.safeParse(await answer?.json().catch(() => null));
    const newest = read.success ? read.data.contactSheets.at(-1) : undefined;
    if (newest === undefined || newest.frames === null) continue;
    const now = `${newest.done} of ${newest.frames} frames`;
    if (now !== before) process.stderr.write(`${now}\n`);
    before = now;
  }
}
