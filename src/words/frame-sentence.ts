import { type Finding, type Judgement, type Question, questions } from '../facts/index.ts';
import { questionNames } from './names.ts';
import { sentence } from './sentences.ts';

interface Judged {
  readonly judgement: Judgement;
  readonly findings: readonly Finding[];
  /** Why it calls nobody though it is not good; none where it is open. */
  readonly settled?: 'accepted' | 'muted' | 'not-asked' | null;
}

/**
 * The one line about a frame: what is worst first, then what that leaves. `cannotShow` is why the frame cannot be
 * shown, where it cannot; it leads unless a verdict is worse than doubt. What is settled never leads; what was accepted is
 * named, what is muted is not.
 */
export function frameSentence(
  verdicts: Readonly<Record<Question, Judged>>,
  cannotShow: Finding | null = null,
): string {
  const lead = leadOf(verdicts, cannotShow);
  return [sentence(lead.finding), restOf(verdicts, lead.question)].filter((part) => part !== '').join(' ');
}

interface Lead {
  readonly finding: Finding;
  readonly question: Question | null;
}

function leadOf(verdicts: Readonly<Record<Question, Judged>>, cannotShow: Finding | null): Lead {
  const first = (judgement: Judgement): Lead | null => {
    const open = questions.filter((name) => isOpen(verdicts[name]) && verdicts[name].judgement === judgement);
    const question = open.find((name) => !isOfTheCopy(verdicts[name])) ?? open[0];
    const finding = question === undefined ? undefined : verdicts[question].findings[0];
    return question === undefined || finding === undefined ? null : { finding, question };
  };
  const shown = cannotShow === null ? null : { finding: cannotShow, question: null };
  const arrived = { finding: verdicts.arrived.findings[0] ?? nothingSaid, question: 'arrived' } as const;
  return first('bad') ?? shown ?? first('doubt') ?? arrived;
}

/** It leads only where nothing else does: the page tells it of the house as well. */
function isOfTheCopy({ findings: [first] }: Judged): boolean {
  return first !== undefined && ofTheCopy.has(first.code);
}

function isOpen({ settled = null }: Judged): boolean {
  return settled === null;
}

function restOf(verdicts: Readonly<Record<Question, Judged>>, said: Question | null): string {
  const accepted = questions.filter((name) => verdicts[name].settled === 'accepted');
  const taken = accepted.length === 0 ? '' : `${listed(accepted)} ${isOrAre(accepted)} accepted.`;
  return [taken, openRestOf(verdicts, said)].filter((part) => part !== '').join(' ');
}

function openRestOf(verdicts: Readonly<Record<Question, Judged>>, said: Question | null): string {
  const rest = questions.filter((name) => name !== said && isOpen(verdicts[name]));
  const named = (judgement: Judgement): readonly Question[] =>
    rest.filter((name) => verdicts[name].judgement === judgement);
  const open = [...named('bad'), ...named('doubt')];
  if (open.length > 0) return `${listed(open)} ${open.length === 1 ? 'needs' : 'need'} a look as well.`;
  const unknown = named('unknown');
  const isMuted = questions.some((name) => verdicts[name].settled === 'muted');
  const isTest = questions.some((name) => verdicts[name].settled === 'not-asked');
  if (unknown.length === 0 && isTest) return 'Nothing else is asked of a test.';
  if (unknown.length === 0) return `Everything else${isMuted ? ' that is spoken of' : ''} is right.`;
  // A frame on its way has answers to nothing: saying so for each question would only drown the first sentence.
  if (verdicts.arrived.judgement === 'unknown' || said === null) return '';
  const waits = unknown.filter((name) => isToCome(verdicts[name]));
  const untold = unknown.filter((name) => !waits.includes(name));
  return [
    untold.length === 0 ? '' : `${listed(untold)} cannot be told.`,
    waits.length === 0 ? '' : `${listed(waits)} ${isOrAre(waits)} not measured yet.`,
  ]
    .filter((part) => part !== '')
    .join(' ');
}

/** Nobody has measured it, or only in the camera's preview, which says nothing yet. */
function isToCome({ findings: [first] }: Judged): boolean {
  return first === undefined || toCome.has(first.code);
}

function isOrAre(names: readonly Question[]): string {
  return names.length === 1 ? 'is' : 'are';
}

function listed(names: readonly Question[]): string {
  const spoken = names.map((name) => questionNames[name]);
  const last = spoken.at(-1) ?? '';
  return spoken.length < 2 ? last : `${spoken.slice(0, -1).join(', ')} and ${last}`;
}

const nothingSaid: Finding = { code: 'judge.not-measured', args: {} };
/**
 * The copy is the station's affair and is minutes behind at times: said on the page, but no reason to call somebody over
 * for each frame. It takes nothing away from the picture.
 */
export const ofTheCopy: ReadonlySet<string> = new Set(['arrived.one-place', 'arrived.same-device']);
const toCome: ReadonlySet<string> = new Set([
  nothingSaid.code,
  'sharp.preview-sharp',
  'exposed.preview',
  'colour.preview',
]);
