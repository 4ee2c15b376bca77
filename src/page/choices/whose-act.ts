import type { ActEntry } from '../../contract/index.ts';
import { jobLabels } from '../../words/index.ts';
import { screenId } from '../link/index.ts';

/** Whose act it was, in words; empty for what was done on this screen. `own`: the name of this screen. */
export function whoseAct({ by, screen }: Pick<ActEntry, 'by' | 'screen'>, own: string = screenId): string {
  if (screen === own) return '';
  if (by !== 'operator') return jobLabels.doneBy(by);
  // Every page names itself.
  return screen === null ? jobLabels.byCommand : jobLabels.elsewhere;
}
