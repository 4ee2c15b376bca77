import type { BlockCoverage } from './block-coverage.ts';
import { Chance } from './chance.ts';
import { mutate } from './mutate.ts';
import { Reached } from './reached.ts';
import type { FuzzTarget } from './target.ts';
import type { Watchdog } from './watchdog.ts';

export interface FuzzReport {
  readonly runs: number;
  /** Inputs that each reached something no earlier one had. */
  readonly corpus: readonly Uint8Array[];
  /** Blocks of our sources that were reached. */
  readonly blocks: number;
  /** The first input that broke an invariant, made as small as a second allows. */
  readonly finding: Finding | null;
}

export interface Finding {
  readonly input: Uint8Array;
  readonly error: unknown;
}

/** Asking V8 what was reached takes as long as ten inputs: so many share one question. */
const inputsPerLook = 64;
/** One input that takes longer than this has found something that grows too fast. */
const runMsMax = 5_000;

/**
 * Runs a target on inputs that are changed at random, for `forMs`. Guided by coverage: an input that reaches a block
 * which no earlier one did, or one far more often, is kept and changed further. The same seed makes the same first
 * inputs; how many, and so what follows, depends on the computer.
 */
export async function fuzz(
  target: FuzzTarget,
  coverage: BlockCoverage,
  forMs: number,
  seed: number,
  watchdog: Watchdog | null = null,
): Promise<FuzzReport> {
  const chance = new Chance(seed);
  const corpus: Uint8Array[] = [];
  const reached = new Reached();
  const endMs = performance.now() + forMs;
  let runs = 0;
  const attempt = async (input: Uint8Array): Promise<unknown> => {
    runs += 1;
    watchdog?.watch(input);
    return runOnce(target, input);
  };
  /** Keeps those of a group that reach something new: halves the group until one is left. */
  const search = async (inputs: readonly Uint8Array[]): Promise<void> => {
    if (performance.now() > endMs + runMsMax) return;
    coverage.take();
    for (const input of inputs) await attempt(input);
    const ran = coverage.take();
    const [only] = inputs;
    if (inputs.length === 1) {
      if (reached.note(ran)) corpus.push(only);
    } else if (reached.hasNewBlock(ran)) {
      const half = inputs.length >> 1;
      await search(inputs.slice(0, half));
      await search(inputs.slice(half));
    }
  };
  const report = (finding: Finding | null): FuzzReport => ({
    runs,
    corpus,
    blocks: reached.blocks,
    finding,
  });
  for (const input of target.seeds()) {
    const error = await attempt(input);
    if (error !== null) return report({ input, error });
    await search([input]);
  }
  while (performance.now() < endMs) {
    const group: Uint8Array[] = [];
    coverage.take();
    while (group.length < inputsPerLook && performance.now() < endMs) {
      const [parent, other] = [chance.oneOf(corpus), chance.oneOf(corpus)];
      const input = mutate(chance, parent, other, target.words, target.inputBytesMax);
      const error = await attempt(input);
      if (error !== null) return report({ input: await shrink(target, input, chance), error });
      group.push(input);
    }
    if (group.length === 0) break;
    if (reached.hasNewBlock(coverage.take())) await search(group);
    // Whether one runs something far more often than ever only shows alone.
    else await search([chance.oneOf(group)]);
  }
  return report(null);
}

/** Null where all is well. */
export async function runOnce(target: FuzzTarget, input: Uint8Array): Promise<unknown> {
  const began = performance.now();
  try {
    await target.run(input);
  } catch (error) {
    return error ?? new Error('something was thrown that is nothing');
  }
  const tookMs = performance.now() - began;
  return tookMs > runMsMax ? new Error(`one input took ${Math.round(tookMs)} ms`) : null;
}

/** Leaves out what is not needed to break the invariant. */
async function shrink(target: FuzzTarget, input: Uint8Array, chance: Chance): Promise<Uint8Array> {
  let smallest = input;
  const endMs = performance.now() + 1_000;
  while (performance.now() < endMs && smallest.length > 1) {
    const from = chance.below(smallest.length);
    const length = 1 + chance.below(Math.max(1, smallest.length >> 1));
    const less = Uint8Array.from([...smallest.subarray(0, from), ...smallest.subarray(from + length)]);
    if ((await runOnce(target, less)) !== null) smallest = less;
  }
  return smallest;
}
