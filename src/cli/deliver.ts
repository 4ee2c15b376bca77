import { readFile } from 'node:fs/promises';
import { setTimeout as pause } from 'node:timers/promises';
import { Command } from 'commander';
import { errorCode, SetsideError } from '../base/index.ts';
import { type Delivery, delivery } from '../contract/index.ts';
import { readSpecificationText, specificationNamed, specifications } from '../deliver/index.ts';
import { sentence } from '../words/index.ts';
import { exitCodes } from './exit-codes.ts';
import { findStation, type WhichStation, withStation } from './find-station.ts';
import { aboutJob } from './job-refusals.ts';
import { printJson, printLine } from './output.ts';
import { callStation, sendJson } from './station-calls.ts';

interface Flags extends WhichStation {
  readonly spec?: string;
  readonly frame?: readonly string[];
  readonly list: boolean;
  readonly json: boolean;
}

/** The station is asked this often how far it is, ms. */
const askMs = 500;

/** `setside deliver JOB --spec S`: the running station makes the files; 1 where one is missing. */
export function deliverCommand(leave: (code: number) => void): Command {
  return withStation(
    new Command('deliver').description(
      'Delivers frames of a job: files to a specification, with a manifest.',
    ),
  )
    .argument('[job]', 'code of the job')
    .option('--spec <name>', 'one that comes with the station (--list), or a file that holds one')
    .option(
      '--frame <id>',
      'only this frame; may be given several times',
      (id: string, before: readonly string[] = []) => [...before, id],
    )
    .option('--list', 'print the specifications that come with the station, every value of them', false)
    .option('--json', 'one JSON document on standard output', false)
    .addHelpText(
      'after',
      '\nThe station goes on where this command is broken off, and after a crash of its own. The exit code is 0 where every file is there, 1 where one is missing or the delivery waits, 2 for wrong use, 3 where it failed.',
    )
    .action(async (job: string | undefined, flags: Flags) => {
      if (flags.list) {
        list(flags.json);
        return;
      }
      if (job === undefined || flags.spec === undefined) {
        process.stderr.write('Name a job and a specification: setside deliver QM-26 --spec web-shop\n');
        leave(exitCodes.wrongUse);
        return;
      }
      leave(await deliver(job, flags.spec, flags));
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

async function deliver(job: string, spec: string, flags: Flags): Promise<number> {
  const specification = await specificationOf(spec);
  const station = await findStation(flags);
  const frames = flags.frame === undefined ? {} : { frames: flags.frame };
  const begun = await aboutJob(
    job,
    sendJson(station, 'POST', '/api/v1/deliveries', { job, specification, ...frames }),
  );
  let now = delivery.parse(await begun.json());
  let told = -1;
  while (now.state === 'running') {
    const ready = now.filesMade + now.filesMissing;
    if (ready !== told) process.stderr.write(`${ready} of ${now.frames} files\n`);
    told = ready;
    await pause(askMs);
    now = delivery.parse(await (await callStation(station, `/api/v1/deliveries/${now.id}`)).json());
  }
  if (flags.json) printJson(now);
  else for (const line of linesOf(now)) printLine(line, false);
  return now.state === 'done' && now.missing.length === 0 ? exitCodes.done : exitCodes.no;
}

function linesOf({ title, folder, files, missing, finding, frames, state }: Delivery): string[] {
  return [
    `${title}: ${files.length} of ${frames} files in ${folder}`,
    ...(state === 'aborted' ? ['It was ended before it was done.'] : []),
    ...(finding === null ? [] : [sentence(finding)]),
    ...files.flatMap(({ file, findings }) => findings.map((each) => `  ${file}: ${sentence(each)}`)),
    ...missing.map(({ original, finding: why }) => `  Not delivered: ${original}: ${sentence(why)}`),
  ];
}

/** A name of the library goes before a file of that name. Errors: `bad-specification`, `no-such-specification`. */
async function specificationOf(wish: string): Promise<unknown> {
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
