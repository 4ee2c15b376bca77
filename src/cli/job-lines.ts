import type { ImportReport, Job, Shot } from '../contract/index.ts';
import { jobPageLabels, jobStateWords, sentence } from '../words/index.ts';
import { printJson, printLine } from './output.ts';

/** A job in one line, or as a document. */
export function showJob(shown: Job, json: boolean): void {
  if (json) printJson(shown);
  else printLine(jobLine(shown), false);
}

function jobLine({ code, state, shots, title, client }: Job): string {
  const count = `${shots.length} ${shots.length === 1 ? 'shot' : 'shots'}`;
  return [code, state, count, [title, client].filter((text) => text !== '').join(', ')]
    .filter((part) => part !== '')
    .join('  ');
}

/** A job with everything that was said of it, and its shots with the ids that other commands take. */
export function showWholeJob(shown: Job, json: boolean): void {
  if (json) {
    printJson(shown);
    return;
  }
  for (const line of wholeJobLines(shown)) printLine(line, false);
}

export function wholeJobLines(shown: Job): string[] {
  const { state, from, to, place, notes, shots, takenAway, currentShot } = shown;
  const days = [from, to].filter((day) => day !== null);
  return [
    jobLine(shown),
    `    ${jobStateWords[state]}`,
    ...(days.length === 0 ? [] : [`    ${days.join(' to ')}`]),
    ...[place, notes].filter((text) => text !== '').map((text) => `    ${text.replaceAll('\n', '\n    ')}`),
    ...shots.map((shot, index) => shotLine(shot, index + 1, shot.id === currentShot)),
    ...takenAway.map(({ id, name }) => `     -  ${name}  (${id})  ${jobPageLabels.takenAwayShort}`),
  ];
}

function shotLine({ id, name }: Shot, number: number, current: boolean): string {
  return `  ${String(number).padStart(4)}  ${name}  (${id})${current ? `  ${jobPageLabels.current}` : ''}`;
}

/** What taking a list in did, or would do: what is wrong first, then what changes. */
export function reportLines(report: ImportReport): string[] {
  const { lines, bad, badLines, findings, unknownColumns, encoding, guessed, preview, reorders } = report;
  const count = (what: string): number => lines.filter((line) => line.what === what).length;
  return [
    ...findings.map((finding) => sentence(finding)),
    ...bad.map(({ finding }) => sentence(finding)),
    ...(badLines > bad.length ? [`${badLines - bad.length} more lines cannot be read.`] : []),
    ...(unknownColumns.length > 0 ? [`Columns that were left out: ${unknownColumns.join(', ')}.`] : []),
    ...(guessed ? [`Read as ${encoding}, which is a guess: look at the letters with accents.`] : []),
    ...lines
      .filter(({ what, changes }) => what === 'changed' && changes.length === 0)
      .map(({ line, name }) => `Line ${line}, ${name}: ${jobPageLabels.listedAgain}`),
    ...lines.flatMap(({ line, name, changes }) =>
      changes.map(
        ({ field, from, to }) => `Line ${line}, ${name}: ${jobPageLabels.fieldChanges(field, from, to)}`,
      ),
    ),
    ...(reorders ? [jobPageLabels.reorders] : []),
    ...(preview && encoding !== null && lines.some(({ what }) => what !== 'added')
      ? [jobPageLabels.emptyCells]
      : []),
    lines.length === 0
      ? `Nothing ${preview ? 'would be' : 'was'} taken in.`
      : `${preview ? 'Would be' : 'Done'}: ${count('added')} added, ${count('changed')} changed, ${count('same')} as they were.`,
  ];
}
