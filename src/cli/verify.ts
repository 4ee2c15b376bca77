import { homedir } from 'node:os';
import { join } from 'node:path';
import { Command, Option } from 'commander';
import { errorMessage } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import {
  type CopiesReport,
  journalRescue,
  readVerificationNote,
  readVerified,
  rescueFindings,
  type Verified,
  type VerifyReport,
  verifiedBy,
  verifyCopies,
  verifyOriginals,
  writeVerificationNote,
  writeVerified,
} from '../keep/index.ts';
import { sentence } from '../words/index.ts';
import { existingHome } from './existing-home.ts';
import { exitCodes } from './exit-codes.ts';
import { printJson, printLine } from './output.ts';
import { copiesLines, countPhrase, incomingLine, inOnePlaceLines, summary } from './verify-lines.ts';
import { verifyProgress } from './verify-progress.ts';
import { verifyStatus } from './verify-status.ts';

interface Flags {
  readonly home: string;
  readonly rebuild: boolean;
  readonly mend: boolean;
  readonly status: boolean;
  readonly json: boolean;
}

/** `setside verify`: reads every original again; exit code 1 where one is not what was received. */
export function verifyCommand(leave: (code: number) => void): Command {
  return new Command('verify')
    .description(
      'Reads every original and every copy again and compares size and SHA-256 with the journal. What it finds is shown on the page of the station. Changes nothing else, unless --mend or --rebuild says so.',
    )
    .option('--home <dir>', 'folder of the station', process.env.SETSIDE_HOME ?? join(homedir(), 'Setside'))
    .addOption(
      new Option(
        '--rebuild',
        'make the register anew from journal and originals (no station may run); 1 if it differs',
      )
        .default(false)
        .conflicts('mend'),
    )
    .option(
      '--mend',
      'set copies aside that are not as they were made; the station makes new ones, running or at its next start',
      false,
    )
    .addOption(
      new Option(
        '--status',
        'read nothing: say when all was read last, by this command or by the station, and how far a reading is; 1 if the last found something bad, or there was none',
      )
        .default(false)
        .conflicts(['mend', 'rebuild']),
    )
    .option('--json', 'one JSON document on standard output', false)
    .action(async (flags: Flags) =>
      leave(await (flags.status ? verifyStatus(flags) : flags.rebuild ? rebuild(flags) : verify(flags))),
    );
}

async function verify({ home: given, json, mend }: Flags): Promise<number> {
  const home = await existingHome(given);
  const beganMs = Date.now();
  const reading = verifyProgress('originals');
  const originals = await verifyOriginals(home, reading.show);
  const { files, bytes, incoming, findings, replaced, inOnePlace } = originals;
  reading.done();
  const badOriginals = new Set(originals.bad.map(({ original }) => original));
  const readingCopies = verifyProgress('copies');
  const note = await readVerificationNote(home);
  const inUse = note?.inUse === undefined ? {} : { inUse: note.inUse };
  const copies = await verifyCopies(home, readingCopies.show, { mend, badOriginals, ...inUse });
  readingCopies.done();
  const untold = await leaveForStation(
    home,
    verifiedBy(beganMs, originals, copies, await readVerified(home)),
  );
  await noteRead(home, beganMs, originals, copies);
  const rescue = [...rescueFindings(badOriginals, copies), ...journalRescue(findings, copies)];
  const fine = findings.length === 0 && copies.every((place) => place.findings.length === 0);
  if (json) {
    printJson({ home, files, bytes, fine, findings, replaced, inOnePlace, rescue, incoming, copies, untold });
  } else {
    for (const finding of findings) printLine(sentence(finding), json);
    printLine(summary(countPhrase(files, 'original'), bytes, originals.bad.length), json);
    for (const original of replaced)
      printLine(sentence({ code: 'keep.original-replaced', args: { original } }), json);
    for (const line of inOnePlaceLines(inOnePlace)) printLine(line, json);
    for (const held of incoming) printLine(incomingLine(held), json);
    for (const place of copies)
      for (const line of copiesLines(place, mend, badOriginals)) printLine(line, json);
    for (const finding of rescue) printLine(sentence(finding), json);
    if (untold !== null) printLine(sentence(untold), json);
  }
  return fine ? exitCodes.done : exitCodes.no;
}

/** For the page and `--status`: this was a reading of everything. A home that cannot be written to is told above. */
async function noteRead(
  home: string,
  beganMs: number,
  originals: Pick<VerifyReport, 'files' | 'bytes' | 'bad'>,
  copies: readonly CopiesReport[],
): Promise<void> {
  const endedMs = Date.now();
  const known = (await readVerificationNote(home)) ?? { sinceMs: endedMs, round: null, last: null };
  const used = copies.filter(({ isGivenUp }) => !isGivenUp);
  const places = used.map(({ folder, files, bad, wasRead }) => ({
    folder,
    files,
    bad: bad.length,
    wasRead,
  }));
  const { files, bytes, bad } = originals;
  const last = { beganMs, endedMs, files, bytes, badOriginals: bad.length, places };
  await writeVerificationNote(home, { ...known, last }).catch(() => {});
}

/** A home that cannot be written to, an image of one, say, is verified all the same: null where its page is told. */
async function leaveForStation(home: string, verified: Verified): Promise<Finding | null> {
  try {
    await writeVerified(home, verified);
    return null;
  } catch (thrown) {
    return { code: 'keep.verified-untold', args: { home, why: errorMessage(thrown) } };
  }
}

async function rebuild({ home: given, json }: Flags): Promise<number> {
  const home = await existingHome(given);
  const { rebuildHome } = await import('../station/index.ts');
  const report = await rebuildHome(home, ({ doneFrames }) => {
    if (process.stderr.isTTY) process.stderr.write(`\r${doneFrames} frames\u001b[K`);
  });
  if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');
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
