import { join } from 'node:path';
import type { CopiesReport, IncomingHeld, IncomingWhy } from '../keep/index.ts';
import { sentence, sizePhrase } from '../words/index.ts';

/** What lies in `incoming/`, for a person. */
export function incomingLine({ why, files, bytes }: IncomingHeld): string {
  const reason =
    why === 'let-go' && bytes === 0
      ? 'broken off and let go by somebody; nothing of it came'
      : incomingReasons[why];
  return `In incoming/: ${countPhrase(files, 'file')}, ${sizePhrase(bytes)}, ${reason}.`;
}

/** That originals have no copy, which is no fault while the station copies; nothing where all have or none should. */
export function inOnePlaceLines(inOnePlace: number | null): string[] {
  if (inOnePlace === null || inOnePlace === 0) return [];
  const which = inOnePlace === 1 ? '1 original is' : `${inOnePlace} originals are`;
  return [
    `${which} in one place only: no second place has a copy yet. Keep the card until the station has copied ${inOnePlace === 1 ? 'it' : 'them'}.`,
  ];
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

/** What was found in one second place. A copy whose original is among `badOriginals` cannot be made anew, and none is promised. */
export function copiesLines(
  { folder, files, bytes, ofReplaced, findings, setAside, wasRead, isGivenUp }: CopiesReport,
  mend: boolean,
  badOriginals: ReadonlySet<string>,
): string[] {
  if (isGivenUp)
    return [
      `${countPhrase(files, 'copy', 'copies')} in ${folder}, which is a second place no more: not read. To have it read, start the station with it once.`,
    ];
  const lines = findings.map((finding) => sentence(finding));
  const lost = findings.filter(({ code }) => lostCodes.has(code));
  const journal = lost.filter(({ code }) => code.startsWith('copy.journal-'));
  const what = `${countPhrase(files, 'copy', 'copies')} in ${folder}`;
  if (wasRead) lines.push(summary(what, bytes, lost.length - journal.length));
  else lines.push(`${what}, ${sizePhrase(bytes)}: not read.`);
  if (ofReplaced > 0)
    lines.push(
      `Besides, ${countPhrase(ofReplaced, 'copy', 'copies')} in ${folder} of what was replaced since: read too.`,
    );
  if (journal.length > 0)
    lines.push(`Copy of the journal in ${folder}: ${countPhrase(journal.length, 'file')} to look at.`);
  const mendable = lost.filter(({ args }) => !badOriginals.has(String(args.original)));
  const missing = mendable.filter(({ code }) => code.endsWith('missing')).length;
  if (setAside > 0)
    lines.push(`Set aside in ${join(folder, 'set-aside')}: ${countPhrase(setAside, 'copy', 'copies')}.`);
  if (setAside + missing > 0) lines.push(anew);
  if (mendable.length > missing && !mend) lines.push(mendHint);
  if (lost.length > mendable.length)
    lines.push(
      `Not to be made anew: ${countPhrase(lost.length - mendable.length, 'copy', 'copies')}, since the original is bad too. What is there stays as it is.`,
    );
  return lines;
}

const lostCodes: ReadonlySet<string> = new Set([
  'copy.missing',
  'copy.altered',
  'copy.size',
  'copy.unreadable',
  'copy.journal-missing',
  'copy.journal-altered',
  'copy.journal-unreadable',
]);

const anew =
  'New copies are made by the station: within minutes if it runs with this second place, else at its next start.';
const mendHint =
  'To have new copies made, run: setside verify --mend. What is there is set aside, not deleted.';

/** How many were read, how large they are, and how many are not as received. */
export function summary(what: string, bytes: number, toLookAt: number): string {
  const how = toLookAt === 0 ? 'all as received' : `${toLookAt} to look at`;
  return `${what}, ${sizePhrase(bytes)}: ${how}.`;
}

export function countPhrase(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
