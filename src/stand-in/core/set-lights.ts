/** The lights of the set. */
import type { Panel } from './kernels/stage.ts';
import { add, cross, normalised, scaled, type Vector } from './vector.ts';

/** A perfect diffuser shows this much in the evenly lit chart frame. */
export const chartLight = 1;

/** Middle of the key light, mm. */
export const keyCentre: Vector = [-650, 440, 320];

/** Key: a softbox from the left, high and a little in front. Back: a strip from above and behind, for the rims. Fill: a second softbox, turned low. */
/** The key light first. */
export const lightPlaces: readonly PanelPlace[] = [
  {
    centre: keyCentre,
    towards: [0, 60, 0],
    widthMm: 470,
    heightMm: 800,
    radiance: 10.5,
    hotspot: 0.5,
    samples: 16,
  },
  {
    centre: [160, 760, -360],
    towards: [0, 20, 0],
    widthMm: 900,
    heightMm: 260,
    radiance: 2.8,
    hotspot: 0.3,
    samples: 9,
  },
  {
    centre: [560, 260, 240],
    towards: [0, 50, 0],
    widthMm: 380,
    heightMm: 620,
    radiance: 0.6,
    hotspot: 0.3,
    samples: 4,
  },
];

/** The lights as they fire; the key light first. One that stays dark is still there to be mirrored. */
export function panelsOf(keyFires: boolean): readonly Panel[] {
  return lightPlaces
    .map(panel)
    .map((light, index) => (index === 0 && !keyFires ? { ...light, radiance: new Float64Array(3) } : light));
}

export interface PanelPlace {
  readonly centre: Vector;
  readonly towards: Vector;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly radiance: number;
  readonly hotspot: number;
  readonly samples: number;
}

function panel({ centre, towards, widthMm, heightMm, radiance, hotspot, samples }: PanelPlace): Panel {
  const normal = normalised(add(towards, scaled(centre, -1)));
  const across = normalised(cross([0, 1, 0], normal));
  const up = cross(normal, across);
  return {
    centre: Float64Array.from(centre),
    halfU: Float64Array.from(scaled(across, widthMm / 2)),
    halfV: Float64Array.from(scaled(up, heightMm / 2)),
    normal: Float64Array.from(normal),
    radiance: Float64Array.of(radiance, radiance, radiance),
    hotspot,
    samples,
  };
}
