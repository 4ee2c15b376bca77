import type { Job, Look, Shot, Station } from '../../contract/index.ts';
import type { ShotStop } from '../state/index.ts';
import type { Reorder } from './use-reorder.ts';
import type { Save } from './use-save.ts';

/** One line of the shot list, and what it may do. */
export interface ShotRowProps {
  readonly job: Job;
  readonly shot: Shot;
  /** Counted from 1. */
  readonly number: number;
  readonly stop: ShotStop | undefined;
  readonly cameras: Station['cameras'];
  /** Every version that is kept; null while they are not here. */
  readonly looks: readonly Look[] | null;
  readonly save: Save;
  readonly grip: Reorder['grip'];
  readonly mark: 'held' | 'over' | null;
  readonly onStep: (by: -1 | 1) => void;
}
