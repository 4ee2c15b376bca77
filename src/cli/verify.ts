import { homedir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import type { Finding } from '../facts/index.ts';
import {
  type CopiesReport,
  type IncomingHeld,
  type IncomingWhy,
  type VerifyProgress,
  verifyCopies,
  verifyOriginals,
} from '../keep/index.ts';
import { sentence, sizePhrase } from '../words/index.ts';
import { existingHome } from './existing-home.ts';
import { exitCodes } from './exit-codes.ts';
import { printJson, printLine } from './output.ts';

interface Flags {
  readonly home: string;
  readonly rebuild: boolean;
  readonly mend: boolean;
  readonly json: boolean;
}

/** `setside verify`: reads every original again; exit code 1 where one is not what was received. */
export function verifyCommand(leave: (code: number) => void): Command {
  return new Command('verify')
    .description(
      'Reads every original and every copy again and compares size and SHA-256 with the journal. Changes nothing, unless --mend or --rebuild says so.',
    )
    .option('--home <dir>', 'folder of the station', process.env.SETSIDE_HOME ?? join(homedir(), 'Setside'))
    .option(
      '--rebuild',
      'make the register anew from journal and originals (no station may run); 1 if it differs',
      false,
    )
    .option(
      '--mend',
      'set copies aside that are not as they were made; the station makes new ones, running or at its next start',
      false,
    )
    .option('--json', 'one JSON document on standard output', false)
    .action(async (flags: Flags) => leave(await (flags.rebuild ? rebuild(flags) : verify(flags))));
}

async function verify({ home: given, json, mend }: Flags): Promise<number> {
  const home = await existingHome(given);
  const { files, bytes, incoming, findings } = await verifyOriginals(home, showProgress);
  const copies = await verifyCopies(home, showProgress, { mend });
  const fine = findings.length === 0 && copies.every((place) => place.findings.length === 0);
  if (json) {
    printJson({ home, files, bytes, fine, findings, incoming, copies });
  } else {
    for (const finding of findings) printLine(sentence(finding), json);
    printLine(summary(countPhrase(files, 'original'), bytes, findings.length), json);
    for (const held of incoming) printLine(incomingLine(held), json);
    for (const place of copies) printCopies(place, mend);
  }
  return fine ? exitCodes.done : exitCodes.no;
}

function incomingLine({ why, files, bytes }: IncomingHeld): string {
  return `In incoming/: ${countPhrase(files, 'file')}, ${sizePhrase(bytes)}, ${incomingReasons[why]}.`;
}

const incomingReasons: Readonly<Record<IncomingWhy, string>> = {
  arriving: 'on the way when the journal was last written',
  waiting: 'broken off and waited for: the camera may go on, or send it again',
  'same-as-original': 'sent again though kept; given back once the original is proved to hold the same bytes',
  'made-good':
    'cut, and whole by a later upload; given back where the original begins with the same bytes, else it stays',
  'let-go': 'broken off and let go by somebody; it stays, since its bytes may be nowhere else',
  folded: 'held by another file too; given back by the station',
  moved: 'left by a crash beside the original',
  unrecorded: 'not in the journal: look what it is before you move it away',
};

function printCopies({ folder, files, bytes, findings, setAside }: CopiesReport, mend: boolean): void {
  for (const finding of findings) printLine(sentence(finding), false);
  const what = `${countPhrase(files, 'copy', 'copies')} in ${folder}`;
  printLine(summary(what, bytes, findings.length), false);
  const isBad = ({ code }: Finding): boolean => code === 'copy.altered' || code === 'copy.unreadable';
  const bad = findings.filter(isBad).length;
  const missing = findings.filter(({ code }) => code === 'copy.missing').length;
  if (setAside > 0)
    printLine(
      `Set aside in ${join(folder, 'set-aside')}: ${countPhrase(setAside, 'copy', 'copies')}.`,
      false,
    );
  if (setAside + missing > 0) printLine(anew, false);
  if (bad > 0 && !mend)
    printLine(
      'To have new copies made, run: setside verify --mend. What is there is set aside, not deleted.',
      false,
    );
}

const anew =
  'New copies are made by the station: within minutes if it runs with this second place, else at its next start.';

function summary(what: string, bytes: number, toLookAt: number): string {
  const how = toLookAt === 0 ? 'all as received' : `${toLookAt} to look at`;
  return `${what}, ${sizePhrase(bytes)}: ${how}.`;
}

function countPhrase(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

async function rebuild({ home: given, json }: Flags): Promise<number> {
  const home = await existingHome(given);
  const { rebuildHome } = await import('../station/index.ts');
  const report = await rebuildHome(home, ({ doneFrames }) => {
    if (process.stderr.isTTY) process.stderr.write(`\r${doneFrames} frames\u001b[K`);
  });
  const { frames, before, after, unread } = report;
  const same = before === null || before === after;
  if (json) {
    printJson({ home, ...report, same });
  } else {
    for (const line of unread) printLine(`Not read: ${line}.`, json);
    printLine(
      `The register is made anew: ${frames} ${frames === 1 ? 'frame' : 'frames'}, dump ${after}.`,
      json,
    );
    if (before === null) printLine('There was none before that could be read.', json);
    else printLine(same ? 'It is the same as before.' : `It differs from the one before (${before}).`, json);
  }
  return same && unread.length === 0 ? exitCodes.done : exitCodes.no;
}

function showProgress({ doneFiles, files, doneBytes, bytes }: VerifyProgress): void {
  if (!process.stderr.isTTY) return;
  const share = bytes === 0 ? 1 : doneBytes / bytes;
  process.stderr.write(`\r${Math.floor(share * 100)} % (${doneFiles} of ${files} originals)\u001b[K`);
}
