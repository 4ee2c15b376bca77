import type { Acceptance, Agreement, Judgement, Question } from '../../facts/index.ts';
import { covers, requiredOf } from '../in-force.ts';
import type { Shot } from '../job.ts';
import type { StrikeFrame } from './strike-frame.ts';
import { lineOf, type StrikeLine } from './strike-line.ts';

export interface StrikeShot {
  readonly id: string;
  readonly name: string;
  readonly heroesWanted: number;
  readonly selectsWanted: number;
  /** In the order of the day. */
  readonly chosen: readonly ChosenFrame[];
  /** Null where nobody asks for it. */
  readonly agreement: Agreement | null;
  /** All lines about it, those that somebody accepted too. */
  readonly lines: readonly StrikeLine[];
}

export interface ChosenFrame {
  readonly id: string;
  readonly name: string;
  readonly mark: 'hero' | 'select';
  readonly verdicts: readonly RequiredVerdict[];
  /** The frame whose target counts for it. */
  readonly target: string | null;
}

export interface RequiredVerdict {
  readonly question: Question;
  readonly judgement: Judgement;
  /** Who took it upon themselves; null where it is good or nobody did. */
  readonly accepted: Pick<Acceptance, 'name' | 'reason'> | null;
}

/**
 * One shot of the check, with its own frames: its heroes, and its selects where it asks for any, with the verdicts it asks for. Whatever a
 * shot asks for, what is chosen has to have arrived: that is where the second place is asked for too.
 */
export function strikeShot(shot: Shot, own: readonly StrikeFrame[], word: Agreement | null): StrikeShot {
  const heroes = own.filter(({ mark }) => mark === 'hero');
  const selects = own.filter(({ mark }) => mark === 'select');
  const chosen = own.filter(({ mark }) => mark === 'hero' || (mark === 'select' && shot.selects > 0));
  const agreement = shot.agreement ? (word ?? 'missing') : null;
  return {
    id: shot.id,
    name: shot.name,
    heroesWanted: shot.heroes,
    selectsWanted: shot.selects,
    chosen: chosen.map((frame) => chosenFrame(shot, frame)),
    agreement,
    lines: [
      ...countLines(shot, own.length, heroes.length, selects.length),
      ...chosen.flatMap((frame) => frameLines(shot, frame)),
      ...agreementLines(shot, agreement),
    ],
  };
}

function countLines(shot: Shot, frames: number, heroes: number, selects: number): StrikeLine[] {
  const of = { cost: 'reshoot', shot: shot.id } as const;
  const args = { shot: shot.name };
  if (frames === 0 && shot.heroes + shot.selects > 0)
    return [lineOf({ ...of, finding: { code: 'strike.no-frames', args } })];
  const lines: StrikeLine[] = [];
  if (heroes < shot.heroes) {
    const figures = { ...args, marked: heroes, wanted: shot.heroes };
    lines.push(lineOf({ ...of, finding: { code: 'strike.no-hero', args: figures } }));
  }
  if (selects < shot.selects) {
    const figures = { ...args, marked: selects, wanted: shot.selects };
    lines.push(lineOf({ ...of, finding: { code: 'strike.too-few-selects', args: figures } }));
  }
  return lines;
}

function chosenFrame(shot: Shot, frame: StrikeFrame): ChosenFrame {
  return {
    id: frame.id,
    name: frame.name,
    mark: frame.mark === 'hero' ? 'hero' : 'select',
    verdicts: askedOf(shot, frame).map((question) => required(frame, question)),
    target: frame.judged?.target ?? null,
  };
}

/** In the order they are asked. */
function askedOf(shot: Shot, { purpose }: StrikeFrame): readonly Question[] {
  const wanted = requiredOf(shot, purpose);
  return wanted.includes('arrived') ? wanted : ['arrived', ...wanted];
}

function required({ judged }: StrikeFrame, question: Question): RequiredVerdict {
  const judgement = judged?.verdicts[question].judgement ?? 'unknown';
  const by = judged?.acceptances.find((each) => each.question === question);
  const accepted =
    judgement === 'good' || by === undefined || !covers(by, judgement)
      ? null
      : { name: by.name, reason: by.reason };
  return { question, judgement, accepted };
}

function frameLines(shot: Shot, frame: StrikeFrame): StrikeLine[] {
  const lines: StrikeLine[] = [];
  const of = { shot: shot.id, frame: frame.id } as const;
  const args = { shot: shot.name, name: frame.name };
  for (const question of askedOf(shot, frame)) {
    const { judgement, accepted } = required(frame, question);
    if (judgement === 'good') continue;
    const finding = { code: `strike.verdict-${judgement}`, args: { ...args, question } };
    const because = frame.judged?.verdicts[question].because ?? null;
    lines.push(lineOf({ ...of, cost: costOf(question, judgement), question, finding, because, accepted }));
  }
  const colour = required(frame, 'colour');
  const wanted = shot.requires.includes('colour') && frame.purpose === 'picture';
  // Where the colour is open or accepted as it is, that no target proves it is a part of that.
  if (wanted && frame.judged?.target === null && colour.judgement === 'good')
    lines.push(lineOf({ ...of, cost: 'reshoot', finding: { code: 'strike.no-target', args } }));
  return lines;
}

/** A picture that is not proved to be here may lie on the card; one that is here in one place only is no reshoot. */
function costOf(question: Question, judgement: Judgement): StrikeLine['cost'] {
  if (question !== 'arrived') return 'reshoot';
  return judgement === 'doubt' ? 'copy' : 'card';
}

function agreementLines(shot: Shot, agreement: Agreement | null): StrikeLine[] {
  if (agreement === null || agreement === 'given') return [];
  const code = agreement === 'older' ? 'strike.word-older' : 'strike.word-missing';
  return [lineOf({ cost: 'word', shot: shot.id, finding: { code, args: { shot: shot.name } } })];
}
