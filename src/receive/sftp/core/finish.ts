import type { ArrivalEnd, ArrivalOutcome } from '../../core/camera-folder.ts';
import { beganAgainFinding, outcomeFinding } from '../../core/outcome-findings.ts';
import { nameOf } from '../../core/path.ts';
import type { OpenFile } from './open-file.ts';
import { type Asking, ask } from './questions.ts';
import type { Turn } from './turn.ts';

/** Ends a file, however that came about, and tells the camera's log. */
export function* finish(turn: Turn, file: OpenFile, end: ArrivalEnd): Asking<ArrivalOutcome> {
  const { handle, path, hasGap, spoiled } = file;
  file.forgetEarly();
  file.state = 'over';
  const outcome = yield* ask('finish', { handle, end });
  turn.remove(handle);
  const name = nameOf(path);
  if (hasGap || spoiled !== null) {
    const why = spoiled ?? 'gap';
    turn.report({ code: 'line.upload-out-of-order', args: { name, why } });
  }
  turn.report(outcomeFinding(path, end, outcome));
  const again = beganAgainFinding(name, outcome);
  if (again !== null) turn.report(again);
  return outcome;
}

/** The time a client gave its file. That it could not be set is no reason to refuse what is kept. */
export function* setTime({ path, modifiedMs }: OpenFile): Asking<void> {
  if (modifiedMs !== null) yield* ask('set-modified', { path, modifiedMs });
}
