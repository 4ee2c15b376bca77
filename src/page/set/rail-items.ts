import type { Frame } from '../../contract/index.ts';
import { type Burst, type CounterGap, momentOf } from '../state/index.ts';
import type { RailItem, RailPlace } from '../viewport/index.ts';
import { type Lanes, laneOfCamera } from './lanes.ts';
import type { FrameMeasures, RailMeasures } from './rail-measures.ts';

/** Where something lies on the rail, CSS pixels. */
export interface RailSpot {
  readonly top: number;
  readonly left: number;
  readonly width: number;
  readonly height: number;
}

/** Frames of a burst that lie beside each other, and the room between them. */
const burstColumns = 2;
const burstGapCssPx = 4;

/** What stands on the rail: every frame or burst of frames, and every counter that never came. */
export function railItems(
  frames: readonly Frame[],
  bursts: readonly Burst[],
  gaps: readonly CounterGap[],
  lanes: Lanes,
  measures: RailMeasures,
): RailItem[] {
  const laneOf = (camera: string): number => laneOfCamera(camera, lanes);
  const inBurst = new Set(bursts.flatMap((burst) => burst.frames));
  const alone = frames.filter((frame) => !inBurst.has(frame));
  return [
    ...alone.map((frame) => ({
      id: frame.id,
      momentMs: momentOf(frame),
      lane: laneOf(frame.camera),
      heightCssPx: frameHeight(frame, measures.frame),
    })),
    ...bursts.map((burst) => ({
      id: burst.id,
      momentMs: burst.fromMs,
      untilMs: burst.toMs,
      lane: laneOf(burst.camera),
      heightCssPx: burstHeight(burst, measures),
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

export function laneLeft(lane: number, measures: RailMeasures): number {
  return measures.axisCssPx + lane * (measures.laneCssPx + measures.betweenLanesCssPx);
}

/** How wide the rail is with so many lanes. */
export function railWidth(lanes: number, measures: RailMeasures): number {
  return laneLeft(lanes, measures) - measures.betweenLanesCssPx;
}

export function spotOf(place: RailPlace, measures: RailMeasures): RailSpot {
  const { laneCssPx: width } = measures;
  return { top: place.topCssPx, left: laneLeft(place.lane, measures), width, height: place.heightCssPx };
}

/** The spot of one frame of a burst, whose own spot is given; read across, then down. */
export function spotInBurst(index: number, burst: RailSpot, measures: RailMeasures): RailSpot {
  const width = (measures.laneCssPx - burstGapCssPx * (burstColumns - 1)) / burstColumns;
  const { pictureCssPx, nameCssPx } = measures.burst;
  const height = pictureCssPx + nameCssPx;
  return {
    top: burst.top + measures.burstHeadCssPx + Math.floor(index / burstColumns) * (height + burstGapCssPx),
    left: burst.left + (index % burstColumns) * (width + burstGapCssPx),
    width,
    height,
  };
}

function frameHeight(frame: Frame, { pictureCssPx, nameCssPx, troubleCssPx }: FrameMeasures): number {
  return pictureCssPx + nameCssPx + (isInTrouble(frame) ? troubleCssPx : 0);
}

function burstHeight({ frames }: Burst, { burst, burstHeadCssPx }: RailMeasures): number {
  const rows = Math.ceil(frames.length / burstColumns);
  return burstHeadCssPx + rows * (burst.pictureCssPx + burst.nameCssPx + burstGapCssPx) - burstGapCssPx;
}
