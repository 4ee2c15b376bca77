import { contactLabels, jobTitle } from '../../words/index.ts';
import { type PageState, trayCode } from '../state/index.ts';

/** What a job, or the tray, is called; its code while it is not known. */
export function titleOf({ jobs }: PageState, code: string): string {
  const job = jobs?.find((each) => each.code === code);
  if (job !== undefined) return jobTitle(job);
  return code === trayCode ? contactLabels.theTray : code;
}
