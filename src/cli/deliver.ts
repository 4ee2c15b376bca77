import { readFile } from 'node:fs/promises';
import { setTimeout as pause } from 'node:timers/promises';
import { Command } from 'commander';
import { errorCode, SetsideError } from '../base/index.ts';

import { type Delivery, delivery, job, type NewDelivery } from '../contract/index.ts';
import {
  readSpecificationText,
  type Specification,
  specificationNamed,
  specifications,
} from '../deliver/index.ts';

import { handOverLabels, namesOfSome, saidOfFiles, sentence } from '../words/index.ts';
import { inWordsOfDestination } from './destination-refusal.ts';
import { exitCodes } from './exit-codes.ts';
import { findStation, type WhichStation, withStation } from './find-station.ts';
import { aboutJob } from './job-refusals.ts';
import { printJson, printLine } from './output.ts';
import { sheetOfFile } from './sheet-of-file.ts';
import { callStation, sendJson } from './station-calls.ts';

interface Flags extends WhichStation {
  readonly spec?: string;
  readonly frame?: string[];
  readonly metadata?: string;
  readonly to?: string;
  readonly list: boolean;
  readonly json: boolean;
}

/** The station is asked this often how far it is, ms. */
const askMs = 500;

/** `setside deliver JOB [--spec S]`: the running station makes the files; 1 where one is missing. */
export function deliverCommand(leave: (code: number) => void): Command {
  return withStation(
    new Command('deliver').description(
      'Delivers frames of a job: files to a specification, with a manifest.',
    ),
  )
    .argument('[job]', 'code of the job')
    .option(
      '--spec <name>',
      'one that comes with the station (--list), or a file that holds one; left out: those that the job names, one after the other',
    )
    .option(
      '--metadata <file>',
      'what is written into the files (docs/delivering.md); left out: what the job says',
    )
    .option(
      '--frame <id>',
      'only this frame; may be given several times',
      (id: string, before: string[] = []) => [...before, id],
    )
    .option(
      '--to <name>',
      'send the files to this destination (setside destination list), once they are made',
    )
    .option('--list', 'print the specifications that come with the station, every value of them', false)
    .option('--json', 'one JSON document on standard output', false)
    .addHelpText(
      'after',
      '\nThe station goes on where this command is broken off, and after a crash of its own. The exit code is 0 where every file is there (and sent, with --to), 1 where one is missing or the delivery waits, 2 for wrong use, 3 where it failed.',
    )
    .action(async (code: string | undefined, flags: Flags) => {
      if (flags.list) {
        list(flags.json);
        return;
      }
      if (code === undefined) {
        process.stderr.write('Name a job: setside deliver QM-26 --spec web-shop\n');
        leave(exitCodes.wrongUse);
        return;
      }
      leave(await deliverAll(code, flags));
    });
}

function list(json: boolean): void {
  if (json) printJson(specifications);
  else
    for (const [name, specification] of Object.entries(specifications)) {
      printLine(`${name}: ${specification.description}`, false);
      printLine(JSON.stringify(specification, null, 2), false);
    }
}

/** One after the other; with `--spec` one alone, and its document is the whole answer. */
async function deliverAll(code: string, flags: Flags): Promise<number> {
  const sheet = flags.metadata === undefined ? undefined : await sheetOfFile(flags.metadata);
  const given = flags.spec === undefined ? null : await specificationOf(flags.spec);
  const station = await findStation(flags);
  const named = given === null ? await namedByJob(station, code) : [given];
  const { to } = flags;
  const wanted =
    to === undefined ? named : named.map((each) => ({ ...each, destination: { kind: 'named', name: to } }));
  const done: Delivery[] = [];
  for (const specification of wanted) {
    const wish = { job: code, specification, metadata: sheet, frames: flags.frame };
    const ended = await deliver(station, wish, to ?? null);
    done.push(ended);
    if (!flags.json) for (const line of linesOf(ended)) printLine(line, false);
  }
  if (flags.json) printJson(given === null ? { deliveries: done } : done[0]);
  return done.every(
    ({ state, missing, notSent }) => state === 'done' && missing.length === 0 && notSent.length === 0,
  )
    ? exitCodes.done
    : exitCodes.no;
}

/** Errors: `no-deliveries`, `no-such-specification`. */
async function namedByJob(station: string, code: string): Promise<readonly Specification[]> {
  const answer = await aboutJob(code, callStation(station, `/api/v1/jobs/${encodeURIComponent(code)}`));
  const { deliveries } = job.parse(await answer.json());
  if (deliveries.length === 0) {
    throw new SetsideError('no-deliveries', `Nobody said how ${code} is handed over`, {
      cure: `Name a specification with --spec (setside deliver --list), or write the job’s deliveries on its page.`,
    });
  }
  return deliveries.map((name) => {
    const known = specificationNamed(name);
    if (known !== null) return known.specification;
    throw new SetsideError(
      'no-such-specification',
      `${code} names ${name}, which no specification is called`,
      {
        cure: `Deliver it with --spec and a file, or have the job name some of ${Object.keys(specifications).join(', ')}.`,
      },
    );
  });
}

/** Begins one, and waits for its end. */
async function deliver(station: string, wish: NewDelivery, to: string | null): Promise<Delivery> {
  const begun = await aboutJob(wish.job, sendJson(station, 'POST', '/api/v1/deliveries', wish)).catch(
    (thrown: unknown) => {
      throw inWordsOfDestination(thrown, to);
    },
  );
  let now = delivery.parse(await begun.json());
  let told = '';
  while (now.state === 'running') {
    const ready = now.filesMade + now.filesMissing;
    const line = `${now.title}: ${progressOf(now, ready)}`;
    if (line !== told) process.stderr.write(`${line}\n`);
    told = line;
    await pause(askMs);
    now = delivery.parse(await (await callStation(station, `/api/v1/deliveries/${now.id}`)).json());
  }
  return now;
}

function progressOf({ frames, destination, bytesSent, bytesToSend }: Delivery, ready: number): string {
  if (destination === null || ready < frames || bytesToSend === 0) return `${ready} of ${frames} files`;
  return `${Math.floor((100 * bytesSent) / bytesToSend)} % at ${destination}`;
}

function linesOf(told: Delivery): string[] {
  const { title, folder, files, missing, notSent, finding, frames, state, destination, filesSent } = told;
  const said = saidOfFiles(files.map(({ findings }) => findings));
  return [
    `${title}: ${files.length} of ${frames} files in ${folder}`,
    ...(destination === null ? [] : [`${filesSent} of ${files.length} files sent to ${destination}`]),
    ...(state === 'aborted' ? ['It was ended before it was done.'] : []),
    ...(finding === null ? [] : [sentence(finding)]),
    ...said.ofAll.map((each) => `  ${handOverLabels.ofAll} ${each}`),
    ...said.ofSome.map(
      ({ text, files: some }) =>
        `  ${handOverLabels.ofSome(some.length)} ${text} (${namesOfSome(some.map((index) => files[index]?.file ?? ''))})`,
    ),
    ...files.flatMap(({ file }, index) => (said.ofEach[index] ?? []).map((each) => `  ${file}: ${each}`)),
    ...files.flatMap(({ sentTo }) => (sentTo === null ? [] : [`  ${sentTo}`])),
    // What was not sent of the files is said of them; these are the manifests.
    ...notSent.flatMap(({ file, finding: why }) =>
      files.some((each) => each.file === file) ? [] : [`  Not sent: ${file}: ${sentence(why)}`],
    ),
    ...missing.map(({ original, finding: why }) => `  Not delivered: ${original}: ${sentence(why)}`),
  ];
}

/** A name of the library goes before a file of that name. Errors: `bad-specification`, `no-such-specification`. */
async function specificationOf(wish: string): Promise<Specification> {
  const known = specificationNamed(wish);
  if (known !== null) return known.specification;
  const text = await readFile(wish, 'utf8').catch((cause: unknown) => {
    if (errorCode(cause) !== 'ENOENT') throw cause;
    throw new SetsideError(
      'no-such-specification',
      `There is neither a specification nor a file called ${wish}`,
      {
        cause,
        cure: `Name one of ${Object.keys(specifications).join(', ')}, or a file; setside deliver --list prints how they look.`,
      },
    );
  });
  const read = readSpecificationText(text);
  if (read.specification !== null) return read.specification;
  throw new SetsideError(
    'bad-specification',
    `${wish}: ${read.findings.map((each) => sentence(each)).join(' ')}`,
    {
      cure: 'docs/delivery.schema.json says what a specification may say.',
    },
  );
}
