import { unsentWords } from '../../words/index.ts';
import { Refused, sendAgreement, sendAnswer, sendRemark } from '../link/index.ts';
import type { Letter } from './letters.ts';
import type { Outcome } from './outbox.ts';

/** What no sending again mends; everything else may be over in a moment, or with a new link. */
const finalCodes: ReadonlySet<string> = new Set([
  'bad-value',
  'id-taken',
  'name-wanted',
  'no-remark',
  'no-shot',
  'not-found',
  'name-taken',
  'nothing-to-agree',
  'picture-changed',
  'too-large',
  'too-many-agreements',
  'too-many-remarks',
]);

/** Takes a letter to the station. Never rejects. */
export async function post(letter: Letter): Promise<Outcome> {
  try {
    await send(letter);
    return { kind: 'taken' };
  } catch (thrown) {
    if (!(thrown instanceof Refused) || !finalCodes.has(thrown.code)) return { kind: 'later' };
    return { kind: 'refused', words: unsentWords[thrown.code] ?? thrown.message };
  }
}

function send(letter: Letter): Promise<void> {
  switch (letter.kind) {
    case 'remark':
      return sendRemark(letter.frame, letter.body);
    case 'answer':
      return sendAnswer(letter.frame, letter.remark, letter.body);
    case 'agreement':
      return sendAgreement(letter.job, letter.shot, letter.body);
  }
}
