import type { Look } from './schema.ts';
import { cdlStage, isNeutralCdl } from './stages/cdl.ts';
import { densityRangeStage } from './stages/density-range.ts';
import { areNeutralBands, hueBandStage } from './stages/hue-bands.ts';
import { monochromeStage } from './stages/monochrome.ts';
import type { Stage } from './stages/stage.ts';
import { isNeutralTint, tintStage } from './stages/tint.ts';

/** The steps of a look on display light, in their order; those that do nothing are left out. */
export function displayStages({ cdl, bands, monochrome, tint, curve }: Look): readonly Stage[] {
  const range = curve?.densityRange ?? null;
  return [
    ...(isNeutralCdl(cdl) ? [] : [cdlStage(cdl)]),
    ...(areNeutralBands(bands) ? [] : [hueBandStage(bands)]),
    ...(monochrome.amount === 0 ? [] : [monochromeStage(monochrome)]),
    ...(isNeutralTint(tint) ? [] : [tintStage(tint)]),
    ...(range === null ? [] : [densityRangeStage(range)]),
  ];
}

/** Display light is kept within -1 … 4: more is white or black on every screen, and stays a number in every table. */
export function runStages(stages: readonly Stage[]): Stage {
  return (rgb) => {
    const [r, g, b] = stages.reduce((light, stage) => stage(light), rgb);
    return [bounded(r), bounded(g), bounded(b)];
  };
}

function bounded(value: number): number {
  return Math.min(4, Math.max(-1, value));
}
