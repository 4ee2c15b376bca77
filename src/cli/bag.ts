import { resolve } from 'node:path';
import { Command } from 'commander';
import { onceEach } from '../bag/index.ts';
import { type BagProgress, type BagReport, checkBag } from '../bagging/index.ts';
import type { JobBag } from '../station/index.ts';
import { sentence, sizePhrase } from '../words/index.ts';
import { existingHome } from './existing-home.ts';
import { exitCodes } from './exit-codes.ts';
import { withHome } from './find-station.ts';
import { printJson, printLine } from './output.ts';
import { countPhrase } from './verify-lines.ts';

/** `setside bag`: archive packages. */
export function bagCommand(leave: (code: number) => void): Command {
  return new Command('bag')
    .description('Archive packages after BagIt (RFC 8493).')
    .addCommand(makeCommand(leave))
    .addCommand(checkCommand(leave));
}

function makeCommand(leave: (code: number) => void): Command {
  return withHome(
    new Command('make').description(
      'Packs a job into a bag: originals, sidecars, deliveries, looks and what the journal says of it, with SHA-256 and SHA-512. Reads it all again in the end. Broken off, the same command goes on.',
    ),
  )
    .argument('<job>', 'code of the job')
    .argument('<folder>', 'a new or empty folder outside the home, best on another disk')
    .option('--json', 'one JSON document on standard output', false)
    .action(async (code: string, given: string, { home, json }: MakeFlags) => {
      const from = await existingHome(home);
      const { bagOfJob } = await import('../station/index.ts');
      const progress = bagProgress();
      const made = await bagOfJob(from, code, resolve(given), Date.now(), {
        onProgress: progress.show,
      }).finally(progress.done);
      if (json) printJson(made);
      else for (const line of [...notInIt(made), ...bagLines(made)]) printLine(line, false);
      leave(made.valid ? exitCodes.done : exitCodes.no);
    });
}

interface MakeFlags {
  readonly home: string;
  readonly json: boolean;
}

/** What of the job is not in its bag. */
export function notInIt({ unfinished, leftOut }: Pick<JobBag, 'unfinished' | 'leftOut'>): string[] {
  const onTheWay = `Not in the bag: ${countPhrase(unfinished, 'file')} of this job on the way or broken off. Keep the card.`;
  return [...(unfinished === 0 ? [] : [onTheWay]), ...leftOut.map((each) => sentence(each))];
}

function checkCommand(leave: (code: number) => void): Command {
  return new Command('check')
    .description(
      'Reads every file of a bag again, whoever made it, and says whether it is complete and unaltered. Ends with 1 if not. Changes nothing, fetches nothing, follows no link.',
    )
    .argument('<folder>', 'the folder that bagit.txt lies in')
    .option('--json', 'one JSON document on standard output', false)
    .action(async (given: string, { json }: { readonly json: boolean }) => {
      const progress = bagProgress();
      const report = await checkBag(resolve(given), { onProgress: progress.show }).finally(progress.done);
      if (json) printJson(report);
      else for (const line of bagLines(report)) printLine(line, false);
      leave(report.valid ? exitCodes.done : exitCodes.no);
    });
}

/** Lines of a person's report that name findings; more are counted only, `--json` has them all. */
const linesMax = 100;

/** The report of a bag for a person: what is wrong, what is odd, and the answer last. */
export function bagLines({ folder, valid, version, files, bytes, findings }: BagReport): string[] {
  const told = onceEach(findings);
  const wrong = told.filter(({ weight }) => weight === 'bad');
  const odd = told.filter(({ weight }) => weight === 'warning');
  const lines = [...wrong, ...odd]
    .slice(0, linesMax)
    .map(({ weight, finding }) => `${weight === 'bad' ? '' : 'Note: '}${sentence(finding)}`);
  if (told.length > linesMax) lines.push(`And ${told.length - linesMax} more; --json names them all.`);
  const what = `${countPhrase(files, 'file')} of payload, ${sizePhrase(bytes)}`;
  lines.push(
    valid
      ? `Valid: ${folder}, version ${version ?? 'unknown'}, ${what}, every checksum read and right.`
      : `Not valid: ${folder}, ${what}, ${countPhrase(wrong.length, 'fault')}.`,
  );
  return lines;
}

/** How much is read, on a line that is written over; none where nobody looks. At most ten times a second. */
export function bagProgress(): { show: (progress: BagProgress) => void; done: () => void } {
  let saidMs = 0;
  const isSeen = process.stderr.isTTY === true;
  return {
    show: ({ doneBytes, bytes }) => {
      if (!isSeen || Date.now() - saidMs < 100) return;
      saidMs = Date.now();
      const share = bytes === 0 ? 1 : doneBytes / bytes;
      process.stderr.write(
        `\r${Math.floor(share * 100)} % (${sizePhrase(doneBytes)} of ${sizePhrase(bytes)})\u001b[K`,
      );
    },
    done: () => {
      if (isSeen) process.stderr.write('\r\u001b[K');
    },
  };
}
