/** Sizes of the rail's parts, CSS pixels. */
export interface RailMeasures {
  /** From the rail's left edge to the first lane. */
  readonly axisCssPx: number;
  /** From the rail's left edge to the ruler, so that times do not stick to the window's edge. */
  readonly insetCssPx: number;
  /** The ruled part of the axis; the rest up to `axisCssPx` is for the leaders. */
  readonly rulerCssPx: number;
  readonly laneCssPx: number;
  readonly betweenLanesCssPx: number;
  /** From a further lane to its own thread of time, left of it between the lanes. */
  readonly threadCssPx: number;
  readonly gapCssPx: number;
  /** Lanes there is room for; the cameras beyond share the last. */
  readonly lanesMax: number;
  /** A frame by itself. */
  readonly frame: FrameMeasures;
  /** A frame of a burst: two beside each other. */
  readonly burst: FrameMeasures;
  /** The line over a burst that says how many in which time. */
  readonly burstHeadCssPx: number;
}

export interface FrameMeasures {
  readonly pictureCssPx: number;
  readonly nameCssPx: number;
  /** What a broken-off or damaged frame takes more, for its sentence. */
  readonly troubleCssPx: number;
  /** Digits of the counter there is room for; null where the whole name fits. */
  readonly counterDigits: number | null;
  /** Letters of a name without a counter there is room for; the end of it tells frames apart. */
  readonly nameLetters: number;
  /** Whether there is room for the speed of a frame on its way. */
  readonly speed: boolean;
}

const wide: RailMeasures = {
  axisCssPx: 102,
  insetCssPx: 10,
  rulerCssPx: 66,
  laneCssPx: 136,
  betweenLanesCssPx: 26,
  threadCssPx: 16,
  gapCssPx: 28,
  lanesMax: 4,
  frame: {
    pictureCssPx: 90,
    nameCssPx: 24,
    troubleCssPx: 40,
    counterDigits: null,
    nameLetters: 13,
    speed: true,
  },
  burst: { pictureCssPx: 44, nameCssPx: 24, troubleCssPx: 0, counterDigits: 4, nameLetters: 3, speed: false },
  burstHeadCssPx: 24,
};
/** Three cameras and more on a screen of middling width: the picture in the middle must not pay for them. */
const crowded: RailMeasures = {
  ...wide,
  laneCssPx: 104,
  betweenLanesCssPx: 16,
  threadCssPx: 10,
  frame: {
    pictureCssPx: 69,
    nameCssPx: 24,
    troubleCssPx: 40,
    counterDigits: null,
    nameLetters: 9,
    speed: false,
  },
  burst: { pictureCssPx: 34, nameCssPx: 24, troubleCssPx: 0, counterDigits: 2, nameLetters: 1, speed: false },
};
const narrow: RailMeasures = {
  axisCssPx: 16,
  insetCssPx: 0,
  rulerCssPx: 6,
  laneCssPx: 76,
  betweenLanesCssPx: 6,
  threadCssPx: 3,
  gapCssPx: 36,
  lanesMax: 1,
  frame: {
    pictureCssPx: 50,
    nameCssPx: 20,
    troubleCssPx: 0,
    counterDigits: 4,
    nameLetters: 7,
    speed: false,
  },
  burst: { pictureCssPx: 26, nameCssPx: 20, troubleCssPx: 0, counterDigits: 2, nameLetters: 1, speed: false },
  burstHeadCssPx: 20,
};

/** Lanes from which on the rail counts as crowded. */
export const crowdedLanes = 3;

export function measuresFor(screen: { narrow: boolean; middling: boolean }, lanes: number): RailMeasures {
  if (screen.narrow) return narrow;
  return screen.middling && lanes >= crowdedLanes ? crowded : wide;
}
