import type { Frame } from '../../contract/index.ts';
import { type CounterGap, momentOf } from '../state/index.ts';
import type { RailItem } from '../viewport/index.ts';

/** Sizes of the rail's parts, CSS pixels. */
export interface RailMeasures {
  readonly axisCssPx: number;
  /** The ruled part of the axis; the rest up to `axisCssPx` is for the leaders. */
  readonly rulerCssPx: number;
  readonly laneCssPx: number;
  readonly betweenLanesCssPx: number;
  readonly pictureCssPx: number;
  readonly nameCssPx: number;
  /** What a broken-off or damaged frame takes more, for its sentence. */
  readonly troubleCssPx: number;
  readonly gapCssPx: number;
  /** Room for a counter only. */
  readonly shortNames: boolean;
  /** Lanes there is room for; the cameras beyond share the last. */
  readonly lanesMax: number;
}

const wide: RailMeasures = {
  axisCssPx: 88,
  rulerCssPx: 66,
  laneCssPx: 136,
  betweenLanesCssPx: 12,
  pictureCssPx: 90,
  nameCssPx: 24,
  troubleCssPx: 124,
  gapCssPx: 28,
  shortNames: false,
  lanesMax: 4,
};
const narrow: RailMeasures = {
  axisCssPx: 16,
  rulerCssPx: 6,
  laneCssPx: 76,
  betweenLanesCssPx: 6,
  pictureCssPx: 50,
  nameCssPx: 20,
  troubleCssPx: 0,
  gapCssPx: 36,
  shortNames: true,
  lanesMax: 1,
};

export function measuresFor(narrowScreen: boolean): RailMeasures {
  return narrowScreen ? narrow : wide;
}

/** What stands on the rail: every frame, and every counter that never came. */
export function railItems(
  frames: readonly Frame[],
  gaps: readonly CounterGap[],
  cameras: readonly string[],
  measures: RailMeasures,
): RailItem[] {
  const laneOf = (camera: string): number =>
    Math.min(Math.max(0, cameras.indexOf(camera)), measures.lanesMax - 1);
  return [
    ...frames.map((frame) => ({
      id: frame.id,
      momentMs: momentOf(frame),
      lane: laneOf(frame.camera),
      heightCssPx:
        measures.pictureCssPx + measures.nameCssPx + (isInTrouble(frame) ? measures.troubleCssPx : 0),
    })),
    ...gaps.map((gap) => ({
      id: gap.id,
      momentMs: gap.momentMs,
      lane: laneOf(gap.camera),
      heightCssPx: measures.gapCssPx,
    })),
  ];
}

/** A frame whose file did not come whole: it keeps its sentence on the rail until it is made good. */
export function isInTrouble(frame: Frame): boolean {
  return frame.files.some((file) => file.state === 'broken-off' || file.state === 'damaged');
}
