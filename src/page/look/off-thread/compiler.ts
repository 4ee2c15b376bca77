import {
  type CompiledLook,
  compileLook,
  type Look,
  type LookProfile,
  type LookTable,
} from '../../../look/index.ts';

/** `turning`: a knob is being dragged, and the picture must follow. `rest`: what the station would compile. */
export type Pace = 'turning' | 'rest';

export interface Compiled extends Omit<CompiledLook, 'local'> {
  /** Names the table, so that one that is known need not be sent again; null where there is none. */
  readonly tableKey: string | null;
}

/** A table of 33 nodes that took longer than this leaves 17 for the next turn of a knob. */
const turningMsMax = 50;

/** Compiles looks one after the other, and keeps the last table: most knobs leave it as it is. */
export class Compiler {
  readonly #clock: () => number;
  #kept: { readonly key: string; readonly table: LookTable } | null = null;
  #turningNodes: 17 | 33 = 33;

  /** `clock` in milliseconds. */
  constructor(clock: () => number) {
    this.#clock = clock;
  }

  compile(look: Look, profile: LookProfile, pace: Pace): Compiled {
    const key = displayKey(look);
    const kept = this.#kept;
    // At rest all of it is compiled, as the station does: how many nodes are needed depends on the tone too.
    if (pace === 'turning' && kept?.key === key) {
      const bare = compileLook(withoutDisplay(look), profile);
      // Without a curve, light is cut for the table's sake: then all of it is compiled.
      if (bare.curve !== null) return { ...bare, table: kept.table, tableKey: nameOf(kept.table, key) };
    }
    const nodes = pace === 'rest' ? 'as-needed' : this.#turningNodes;
    const began = this.#clock();
    const compiled = compileLook(look, profile, nodes);
    if (nodes === 33 && this.#clock() - began > turningMsMax) this.#turningNodes = 17;
    const { table } = compiled;
    this.#kept = table === null ? null : { key, table };
    return { ...compiled, tableKey: table === null ? null : nameOf(table, key) };
  }
}

/** A table is what its stages and its size make of it. */
function nameOf({ size }: LookTable, key: string): string {
  return `${size} ${key}`;
}

/** What the table is made of. */
function displayKey({ cdl, bands, monochrome, tint, curve }: Look): string {
  return JSON.stringify([cdl, bands, monochrome, tint, curve?.densityRange ?? null]);
}

function withoutDisplay(look: Look): Look {
  return {
    ...look,
    cdl: { slope: [1, 1, 1], offset: [0, 0, 0], power: [1, 1, 1], saturation: 1 },
    bands: [],
    monochrome: { ...look.monochrome, amount: 0 },
    tint: { ...look.tint, darkChroma: 0, lightChroma: 0 },
    curve: look.curve === null ? null : { ...look.curve, densityRange: null },
  };
}
