import { epochMsToRfc3339 } from '../../base/index.ts';
import type { CardCheck, NewCardOutcome } from '../../contract/index.ts';
import type { CardChecked, CardReport } from '../../keep/index.ts';
import { cardOutcome } from './card-outcome.ts';
import { beginningCheck, checkDone } from './card-state.ts';

/** What the command tells a running station of a card that it read. `mark`: of the card as it was before. */
export function cardToTell(
  report: CardReport,
  startedMs: number,
  endedMs: number,
  mark: string | null,
): NewCardOutcome {
  const { folder, startedAt, files, bytes, counts, mayBeWiped, findings, notSafe, passedOver, copies } =
    checkDone(beginningCheck('', report.folder, startedMs), report, endedMs);
  return {
    ...{ folder, startedAt, files, bytes, counts, mayBeWiped, findings, notSafe, passedOver, copies },
    endedAt: epochMsToRfc3339(endedMs),
    lasts: cardOutcome(report).lasts.map((last) => ({ ...last })),
    mark,
  };
}

/** As the page is told of it. */
export function checkTold(outcome: NewCardOutcome, id: string): CardCheck {
  const { lasts: _lasts, mark: _mark, ...told } = outcome;
  const { startedAt, files, bytes } = told;
  return {
    ...beginningCheck(id, told.folder, Date.parse(startedAt)),
    ...told,
    state: 'done',
    doneFiles: files,
    doneBytes: bytes,
    byCommand: true,
  };
}

/** As the journal keeps it. */
export function outcomeTold(outcome: NewCardOutcome): CardChecked {
  const { folder, files, bytes, counts, mayBeWiped, lasts } = outcome;
  return { type: 'card-checked', folder, files, bytes, ...counts, isSafe: mayBeWiped, lasts };
}
