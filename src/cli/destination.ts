import { resolve } from 'node:path';
import { Command } from 'commander';
import { SetsideError } from '../base/index.ts';
import {
  type Destination,
  type DestinationPlace,
  destinationName,
  hostKeyFingerprint,
} from '../contract/index.ts';
import type { DestinationBook } from '../station/index.ts';
import { sentence } from '../words/index.ts';
import { type PlaceFlags, placeOf } from './destination-place.ts';
import { type SecretFlags, secretGiven } from './destination-secret.ts';
import { exitCodes } from './exit-codes.ts';
import { findStationIfAny, withHome } from './find-station.ts';
import { printJson, printLine } from './output.ts';
import { renameDestination } from './rename-destination.ts';

interface Flags {
  readonly home: string;
  readonly json: boolean;
}

type AddFlags = Flags & PlaceFlags & SecretFlags;

/** `setside destination`: where deliveries are sent. Works on the home itself, beside a running station or without one. */
export function destinationCommand(leave: (code: number) => void): Command {
  const command = new Command('destination').description(
    'Destinations of deliveries: folders, SFTP servers, S3-compatible storage.',
  );
  addCommand(command).action(async (name: string, words: readonly string[], flags: AddFlags) => {
    const place = placeOf(flags);
    const secret = await secretGiven(place, flags, words);
    const { destination } = await (await bookOf(flags)).put(name, place, secret);
    show(destination, flags.json);
    leave(exitCodes.done);
  });
  subcommand(command, 'list', 'every destination, without secrets').action(async (flags: Flags) => {
    const all = await (await bookOf(flags)).all();
    for (const each of all) show(each, flags.json);
    if (all.length === 0)
      printLine('There is no destination: setside destination add makes one.', flags.json);
    leave(exitCodes.done);
  });
  subcommand(command, 'forget <name>', 'takes a destination and its secret away').action(
    async (name: string, flags: Flags) => {
      const found = await oneOf(await bookOf(flags), name);
      await (await bookOf(flags)).forget(name);
      show(found, flags.json);
      leave(exitCodes.done);
    },
  );
  subcommand(command, 'rename <name> <to>', 'another name for a destination; its secret goes along').action(
    async (name: string, to: string, flags: Flags) => {
      const book = await bookOf(flags);
      const newName = destinationNamed(to);
      const found = await oneOf(book, name);
      const station = await findStationIfAny(flags);
      show(await renameDestination(station, book, found, newName), flags.json);
      leave(exitCodes.done);
    },
  );
  subcommand(command, 'test <name>', 'sends a small file there, reads it back, takes it away again')
    .option('--trust <fingerprint>', 'the key of the SFTP server, after you compared it: SHA256:…')
    .action(async (name: string, flags: Flags & { readonly trust?: string }) => {
      const book = await bookOf(flags);
      if (flags.trust !== undefined) await trust(book, await oneOf(book, name), flags.trust);
      leave(await test(book, name, flags.json));
    });
  return command;
}

function subcommand(parent: Command, words: string, description: string): Command {
  return withHome(parent.command(words).description(description)).option(
    '--json',
    'JSON on standard output, one document for each destination',
    false,
  );
}

function addCommand(parent: Command): Command {
  return subcommand(parent, 'add <name> [program...]', 'a new destination, or another place for one')
    .option('--folder <path>', 'a folder of this computer, such as a disk of the client')
    .option('--sftp <user@host>', 'an SFTP server')
    .option('--port <n>', 'SFTP: its port', '22')
    .option('--path <folder>', 'SFTP: folder there', '.')
    .option('--host-key <fingerprint>', 'SFTP: key of the server, as whoever keeps it says: SHA256:…')
    .option('--key <file>', 'SFTP: log in by this private key (without a passphrase); its text is kept')
    .option('--s3 <bucket>', 'a bucket of S3-compatible storage')
    .option('--region <region>', 'S3: its region', 'us-east-1')
    .option('--endpoint <url>', 'S3: address of the service, where the region does not say it')
    .option('--prefix <path>', 'S3: goes before every name', '')
    .option('--path-style', 'S3: the bucket stands in the path of the address', false)
    .option('--access-key-id <id>', 'S3: the public half of the log-in')
    .option('--secret-variable <name>', 'take the secret from this variable of the station’s environment')
    .option('--secret-program', 'run the words behind -- to get the secret, whenever it is needed', false)
    .addHelpText(
      'after',
      '\nWithout --key, --secret-variable and --secret-program the secret (password, or secret access key) is read from standard input, and kept in the folder keys of the home, readable by this user only. Examples:\n\n  setside destination add client-disk --folder /media/CLIENT\n  setside destination add printer --sftp studio@files.example --path in\n  setside destination add vault --s3 pictures --region eu-north-1 --access-key-id AK… --secret-program -- secret-tool lookup service vault',
    );
}

/** A station is most of the program; who asks for help need not wait for it. */
async function bookOf({ home }: Flags): Promise<DestinationBook> {
  const { DestinationBook: Book } = await import('../station/index.ts');
  return new Book(resolve(home));
}

/** Errors: `bad-destination`. */
function destinationNamed(name: string): string {
  const read = destinationName.safeParse(name);
  if (read.success) return read.data;
  throw new SetsideError('bad-destination', `${name} cannot be the name of a destination`, {
    cure: 'Use 1 to 40 small letters, digits and hyphens.',
  });
}

async function oneOf(book: DestinationBook, name: string): Promise<Destination> {
  const found = await book.one(name);
  if (found !== null) return found;
  throw new SetsideError('no-destination', `there is no destination ${name}`, {
    cure: 'setside destination list shows those there are.',
  });
}

async function trust(book: DestinationBook, { name, place }: Destination, shown: string): Promise<void> {
  const fingerprint = hostKeyFingerprint.safeParse(shown);
  if (place.kind !== 'sftp' || !fingerprint.success) {
    throw new SetsideError('bad-destination', 'only the key of an SFTP server is trusted, as SHA256:…', {
      cure: 'Give the fingerprint as ssh-keygen -l prints it.',
    });
  }
  await book.put(name, { ...place, hostKey: fingerprint.data }, undefined);
}

async function test(book: DestinationBook, name: string, json: boolean): Promise<number> {
  const { testDestination } = await import('../station/index.ts');
  await oneOf(book, name);
  const tested = await testDestination(book, name, new AbortController().signal);
  if (tested === null) return exitCodes.no;
  if (json) printJson(tested);
  else {
    for (const finding of tested.findings) printLine(sentence(finding), false);
    if (tested.ok)
      printLine(`A small file was sent to ${name}, compared there, and taken away again.`, false);
  }
  return tested.ok ? exitCodes.done : exitCodes.no;
}

function show(destination: Destination, json: boolean): void {
  if (json) printJson(destination);
  else {
    const { name, place, secret } = destination;
    const from = secret === null ? '' : `  secret: ${secretWords[secret]}`;
    printLine(`${name}  ${addressOf(place)}${from}`, false);
  }
}

const secretWords = {
  kept: 'kept',
  environment: 'from the environment',
  command: 'from a program',
} as const;

function addressOf(place: DestinationPlace): string {
  switch (place.kind) {
    case 'folder':
      return place.path;
    case 'sftp': {
      const key = place.hostKey === null ? '  (key of the server not compared yet)' : '';
      return `sftp://${place.user}@${place.host}:${place.port} ${place.path}${key}`;
    }
    case 's3':
      return `s3://${place.bucket}/${place.prefix} ${place.endpoint ?? place.region}`;
  }
}
