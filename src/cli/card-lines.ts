import type { CardFile, CardFileState, CardReport } from '../keep/index.ts';
import { sentence, sizePhrase } from '../words/index.ts';
import { countPhrase } from './verify-lines.ts';

/** Files of one kind that are named; more are counted only, `--json` has them all. */
const namedMax = 20;

/** The report of a card for a person: what is not proved, and the answer last. */
export function cardLines({ folder, files, bytes, passedOver, findings, safe }: CardReport): string[] {
  const of = (state: CardFileState): CardFile[] => files.filter((file) => file.state === state);
  const lines = findings.map((finding) => sentence(finding));
  for (const { path, sizeBytes } of of('missing').slice(0, namedMax))
    lines.push(`Missing: ${path}, ${sizePhrase(sizeBytes)}. These bytes are not here.`);
  for (const { path } of of('once').slice(0, namedMax)) lines.push(`In one place only: ${path}.`);
  for (const state of ['missing', 'once'] as const)
    if (of(state).length > namedMax)
      lines.push(`And ${of(state).length - namedMax} more of these; --json names them all.`);
  const said = files.flatMap((file) => file.findings.map((finding) => sentence(finding)));
  lines.push(...[...new Set(said)].slice(0, namedMax));
  if (passedOver.length > 0)
    lines.push(
      `Not looked at: ${countPhrase(passedOver.length, 'name')} that computers leave on cards, or links.`,
    );
  const what = `${countPhrase(files.length, 'file')} on ${folder}, ${sizePhrase(bytes)}`;
  if (safe)
    lines.push(
      `${what}: every one was read just now from the card, from the home and from another disk, with the same bytes. Nothing was deleted; what becomes of the card is yours to decide.`,
    );
  else
    lines.push(
      `${what}: ${of('safe').length} proved to be here twice, ${of('once').length} once, ${of('missing').length} missing, ${of('unread').length} not read. Keep the card.`,
    );
  if (of('missing').length > 0 && !findings.some(({ code }) => code === 'card.is-home'))
    lines.push(
      `To take in what is missing, start the station with --watch CAMERA=${folder}, then check again. It copies, and leaves the card as it is.`,
    );
  return lines;
}
