import { ChangeBudget, type ChangeLimits } from './change-budget.ts';
import { LogInBook, type LogInLimits } from './log-in-book.ts';

/** What the doors of one station count together: a stranger, or a camera, has no more by coming in by several. */
export interface SharedBooks {
  readonly logIns: LogInBook;
  readonly budget: ChangeBudget;
}

/** For all doors of a station; a door that is given none counts for itself. */
export function openSharedBooks(limits: LogInLimits & ChangeLimits): SharedBooks {
  return { logIns: new LogInBook(limits), budget: new ChangeBudget(limits) };
}
