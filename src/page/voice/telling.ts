import type { Frame } from '../../contract/index.ts';
import { type Finding, type Judgement, type Question, questions } from '../../facts/index.ts';
import { ofTheCopy } from '../../words/index.ts';
import { hasAccepted, isArriving, openJudgement } from '../state/index.ts';

/** What is told of a frame across the room: its worst answer, and why. */
export interface Telling {
  readonly frame: string;
  readonly judgement: Judgement;
  /** What it rests on; null where nothing is said against it. */
  readonly finding: Finding | null;
  /** Whose answer leads; null where all are right, or where it is the picture that cannot be made. */
  readonly question: Question | null;
  /** Whether it is told as good only since somebody accepted what was not. */
  readonly accepted: boolean;
}

/** Answers that something better will take the place of: they are not told. */
const toCome: ReadonlySet<string> = new Set([
  'judge.not-measured',
  'sharp.preview-sharp',
  'sharp.preview-soft',
  'exposed.preview',
  'exposed.preview-warns',
]);

/** Without a reference or a target there is nothing to be unsure of: nobody asked. */
const notAsked: ReadonlySet<string> = new Set([
  'judge.not-measured',
  'place.no-reference',
  'place.not-yet',
  'colour.no-target-counts',
  'colour.none-counts',
  'colour.not-yet',
]);

const nothingWrong: ReadonlySet<string> = new Set(['picture.not-a-picture', 'picture.unknown-kind']);

/**
 * What to tell of a frame, or null while it is still arriving or being measured. `good` only where sharpness and exposure
 * were measured on the whole file and are good; an answer that was asked for and cannot be given makes it `unknown`. A
 * verdict that was accepted, or that the shot does not speak of, is not told.
 */
export function tellingOf(frame: Frame): Telling | null {
  if (isArriving(frame)) return null;
  const { verdicts, picture, id } = frame;
  const broken = frame.files.some(({ state }) => state === 'broken-off' || state === 'damaged');
  const cannot = picture.state === 'cannot' ? picture.reason : null;
  if (!broken && cannot === null && !isMeasured(frame)) return null;
  const lead = (judgement: Judgement): Telling | null => {
    const question = questions.find((name) => weightOf(frame, name) === judgement);
    if (question === undefined) return null;
    return {
      frame: id,
      judgement,
      finding: verdicts[question].findings[0] ?? null,
      question,
      accepted: false,
    };
  };
  const bad = lead('bad');
  if (bad !== null) return bad;
  if (cannot !== null) {
    const judgement = nothingWrong.has(cannot.code) ? 'unknown' : 'doubt';
    return { frame: id, judgement, finding: cannot, question: null, accepted: false };
  }
  const settled = { frame: id, judgement: 'good', finding: null, question: null } as const;
  return lead('doubt') ?? lead('unknown') ?? { ...settled, accepted: hasAccepted(frame) };
}

function isMeasured({ verdicts }: Frame): boolean {
  return [verdicts.sharp, verdicts.exposed].every(({ findings: [first] }) => !toCome.has(first?.code ?? ''));
}

/** How a verdict weighs: what is settled, or nobody asked for, calls nobody. */
function weightOf(frame: Frame, question: Question): Judgement {
  const judgement = openJudgement(frame, question);
  const code = frame.verdicts[question].findings[0]?.code ?? '';
  const isAside =
    (judgement === 'doubt' && ofTheCopy.has(code)) || (judgement === 'unknown' && notAsked.has(code));
  return isAside ? 'good' : judgement;
}
