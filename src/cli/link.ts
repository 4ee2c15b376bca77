import { Command, InvalidArgumentError, Option } from 'commander';
import { SetsideError } from '../base/index.ts';
import {
  job,
  type Link,
  type LinkScope,
  linkList,
  linkMinutesMax,
  linkScopes,
  type MadeLink,
  madeLink,
} from '../contract/index.ts';
import { linkLabels, scopeWords, sentence } from '../words/index.ts';
import { dayAndTime } from './day-and-time.ts';
import { exitCodes } from './exit-codes.ts';
import { findStation, type WhichStation, withStation } from './find-station.ts';
import { aboutJob } from './job-refusals.ts';
import { lineOf } from './line.ts';
import { printJson, printLine } from './output.ts';
import { qrText } from './qr-text.ts';
import { shotNamed } from './shot-named.ts';
import { callStation, sendJson } from './station-calls.ts';

interface Flags extends WhichStation {
  readonly json: boolean;
}

interface AddFlags extends Flags {
  readonly for?: string;
  readonly job?: string;
  readonly shot?: string[];
  readonly hours: number;
}

/** `setside link`: who may look in from another device, by calls to the running station, which alone knows its addresses. */
export function linkCommand(leave: (code: number) => void): Command {
  const command = new Command('link').description(
    'Links by which phones and other computers look in at a running station.',
  );
  withAdd(subcommand(command, 'add', 'a new link; its address is told this once')).action(
    async (scope: LinkScope, flags: AddFlags) => {
      const made = await add(scope, flags);
      if (flags.json) printJson(made);
      else {
        tell(made);
        await tellWall(made, await findStation(flags));
      }
      leave(made.door.port === null ? exitCodes.no : exitCodes.done);
    },
  );
  subcommand(command, 'list', 'every link that has not ended').action(async (flags: Flags) => {
    const known = await links(await findStation(flags));
    for (const link of known) show(link, flags.json);
    if (known.length === 0) printLine('No link lets anybody in: setside link add makes one.', flags.json);
    leave(exitCodes.done);
  });
  subcommand(command, 'end <link>', 'ends a link at once, by its name or id').action(
    async (wanted: string, flags: Flags) => {
      const ended = await end(wanted, await findStation(flags));
      if (flags.json) printJson(ended);
      else printLine(linkLabels.endedNow(ended.name, ended.devices), false);
      leave(exitCodes.done);
    },
  );
  return command;
}

function subcommand(parent: Command, words: string, description: string): Command {
  return withStation(parent.command(words).description(description)).option(
    '--json',
    'JSON on standard output, one document for each link',
    false,
  );
}

function withAdd(command: Command): Command {
  return command
    .argument(
      '<scope>',
      `what it lets somebody do: ${linkScopes.map((scope) => `${scope} (${scopeWords[scope]})`).join('; ')}`,
      scopeNamed,
    )
    .option('--for <name>', 'whom or what it is for')
    .option('--job <code>', 'guest: the job whose pictures are shown')
    .option(
      '--shot <name>',
      'guest: only pictures of this shot, by its name or as id=ID (repeatable)',
      (shot: string, others: string[] = []) => [...others, shot],
    )
    .addOption(
      new Option('--hours <n>', 'it ends by itself after so many hours').argParser(hours).default(12),
    );
}

async function add(scope: LinkScope, flags: AddFlags): Promise<MadeLink> {
  if ((scope === 'guest') !== (flags.job !== undefined)) {
    throw new SetsideError('bad-option', 'a guest is shown a job, and nobody else is', {
      cure: 'Say which with --job for a guest; leave it out for the others.',
    });
  }
  const station = await findStation(flags);
  const share =
    flags.job === undefined
      ? {}
      : { share: { job: flags.job, shots: await shotsNamed(station, flags.job, flags.shot ?? []) } };
  const wish = { scope, name: flags.for ?? scope, minutes: Math.round(flags.hours * 60), ...share };
  const made = sendJson(station, 'POST', '/api/v1/links', wish);
  return madeLink.parse(await (await (flags.job === undefined ? made : aboutJob(flags.job, made))).json());
}

/** Ids of a job's shots, as {@link shotNamed} finds them. */
async function shotsNamed(station: string, code: string, wanted: readonly string[]): Promise<string[]> {
  if (wanted.length === 0) return [];
  const answer = await aboutJob(code, callStation(station, `/api/v1/jobs/${encodeURIComponent(code)}`));
  const { shots } = job.parse(await answer.json());
  return wanted.map((words) => shotNamed(code, shots, words));
}

async function links(station: string): Promise<readonly Link[]> {
  return linkList.parse(await (await callStation(station, '/api/v1/links')).json()).links;
}

async function end(wanted: string, station: string): Promise<Link> {
  const known = await links(station);
  const byId = known.filter(({ id }) => id === wanted);
  const found = byId.length > 0 ? byId : known.filter(({ name }) => name === wanted);
  const [link] = found;
  if (link === undefined) {
    throw new SetsideError('no-link', `there is no link ${wanted}`, {
      cure: 'setside link list shows those there are.',
    });
  }
  if (found.length > 1) {
    throw new SetsideError('several-links', `${found.length} links are called ${wanted}`, {
      cure: `Say which by its id: ${found.map(({ id }) => id).join(', ')}.`,
    });
  }
  await callStation(station, `/api/v1/links/${encodeURIComponent(link.id)}`, { method: 'DELETE' });
  return link;
}

function tell({ link, addresses, door }: MadeLink): void {
  const [best] = addresses;
  if (door.trouble !== null) printLine(sentence(door.trouble), false);
  if (best === undefined) return;
  if (process.stdout.isTTY) printLine(`\n${qrText(best.url)}\n`, false);
  for (const { url, encrypted } of addresses.filter((each) => each.encrypted === best.encrypted)) {
    printLine(`${url}${encrypted ? '' : '  (not encrypted)'}`, false);
  }
  const clear = addresses.find(({ encrypted }) => !encrypted);
  if (best.encrypted && clear !== undefined && link.scope !== 'operator') {
    printLine(`${linkLabels.clear}:\n${clear.url}\n${linkLabels.clearWarning}`, false);
  }
  printLine(linkLabels.onceOnly, false);
}

/** A device that the firewall keeps out finds nothing, and says nothing of why. */
async function tellWall({ door }: MadeLink, station: string): Promise<void> {
  if (door.port === null) return;
  const { findings } = await lineOf(station);
  const shut = findings.find(({ code }) => code === 'line-check.links-shut');
  if (shut === undefined) return;
  printLine(`${sentence(shut.cause)} ${linkLabels.mend}`, false);
}

function show(link: Link, json: boolean): void {
  if (json) {
    printJson(link);
    return;
  }
  const { id, name, scope, share, devices, ends } = link;
  const of = share === null ? '' : ` of ${share.job}`;
  printLine(`${id}  ${name}  ${scope}${of}  ${devices} in  until ${dayAndTime(Date.parse(ends))}`, false);
}

function scopeNamed(text: string): LinkScope {
  const scope = linkScopes.find((each) => each === text);
  if (scope !== undefined) return scope;
  throw new InvalidArgumentError(`expected ${linkScopes.join(', ')}, got "${text}"`);
}

function hours(text: string): number {
  const value = Number(text);
  if (text.trim() !== '' && value * 60 >= 1 && value * 60 <= linkMinutesMax) return value;
  throw new InvalidArgumentError(`expected hours up to ${linkMinutesMax / 60}, got "${text}"`);
}
