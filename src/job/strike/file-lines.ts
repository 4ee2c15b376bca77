import { covers } from '../in-force.ts';
import { isBroken, type StrikeFile, type StrikeFrame } from './strike-frame.ts';
import { lineOf, type StrikeLine } from './strike-line.ts';

/**
 * Files that broke off, came damaged or are on their way, and frames that no second place holds. Frames that are chosen are
 * asked about with their shots; of those marked out nothing is asked: what nobody wants may be lost.
 */
export function fileLines(
  frames: readonly StrikeFrame[],
  chosen: ReadonlySet<string>,
  secondPlaces: number,
): StrikeLine[] {
  const others = frames.filter(({ id, mark }) => mark !== 'out' && !chosen.has(id));
  return [...brokenLines(frames, others), ...arrivingLines(frames), ...copyLines(others, secondPlaces)];
}

function brokenLines(frames: readonly StrikeFrame[], asked: readonly StrikeFrame[]): StrikeLine[] {
  const whole = new Set(
    frames.flatMap(({ camera, files }) =>
      files.filter(({ state }) => state === 'whole').map(({ name }) => keyOf(camera, name)),
    ),
  );
  return asked.flatMap((frame) => {
    if (isTakenSo(frame)) return [];
    return frame.files
      .filter(({ name, state }) => isBroken(state) && !whole.has(keyOf(frame.camera, name)))
      .map(({ name, state }) => {
        const code = state === 'damaged' ? 'strike.damaged' : 'strike.broken-off';
        const finding = { code, args: { name, camera: frame.camera } };
        const because = frame.judged?.verdicts.arrived.because ?? null;
        return lineOf({
          cost: 'card',
          frame: frame.id,
          shot: frame.shot,
          question: 'arrived',
          finding,
          because,
        });
      });
  });
}

function keyOf(camera: string, name: string): string {
  return `${camera}/${name.toLowerCase()}`;
}

/** Somebody took it as it is. */
function isTakenSo({ judged }: StrikeFrame): boolean {
  const { judgement } = judged?.verdicts.arrived ?? { judgement: 'unknown' as const };
  return judged?.acceptances.some((each) => each.question === 'arrived' && covers(each, judgement)) ?? false;
}

function arrivingLines(frames: readonly StrikeFrame[]): StrikeLine[] {
  const count = frames.flatMap(({ files }) => files).filter(({ state }) => state === 'arriving').length;
  if (count === 0) return [];
  return [lineOf({ cost: 'card', finding: { code: 'strike.arriving', args: { count } } })];
}

function copyLines(frames: readonly StrikeFrame[], secondPlaces: number): StrikeLine[] {
  const count = frames.filter(({ files }) => files.some(isInOnePlace)).length;
  if (count === 0) return [];
  const code = secondPlaces === 0 ? 'strike.no-second-place' : 'strike.not-copied';
  return [lineOf({ cost: 'copy', explainable: true, finding: { code, args: { count } } })];
}

function isInOnePlace({ state, copies }: StrikeFile): boolean {
  return (state === 'whole' || state === 'unproved' || state === 'damaged') && copies === 0;
}
