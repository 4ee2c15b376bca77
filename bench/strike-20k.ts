import { rm } from 'node:fs/promises';
import { homeOfMany, manyJob } from './many-frames.ts';
import { type Bench, type BenchResult, median, type Run, resultOf } from './measure.ts';
import { processorS } from './processor.ts';
import { startBenchStation } from './station.ts';
import { untilAtRest } from './two-homes.ts';

const framesMany = 20_000;
/** The engine compiles what the check needs. */
const warmUps = 2;

/** The strike check is made anew each time it is asked for: this is how long one waits for it. */
export const strike20k: Bench = {
  name: 'strike-20k',
  about: 'the strike check of a job of 20,000 frames',
  async measure(rounds, say): Promise<BenchResult> {
    const home = await homeOfMany(framesMany, say);
    const station = await startBenchStation(home);
    const runs: Run[] = [];
    const busyMs: number[] = [];
    const ask = async (): Promise<number> => {
      const [from, before] = [performance.now(), await processorS(station.pid)];
      const answer = await fetch(`${station.web}/api/v1/strike?job=${manyJob}`);
      await answer.arrayBuffer();
      if (!answer.ok) throw new Error(`expected a check, got ${answer.status}`);
      const ms = performance.now() - from;
      busyMs.push(((await processorS(station.pid)) - before) * 1000);
      return ms;
    };
    try {
      await untilAtRest(station);
      for (let round = 0; round < warmUps; round += 1) await ask();
      busyMs.length = 0;
      for (let round = 0; round < rounds; round += 1) {
        const ours = await ask();
        runs.push({ ours, reference: null });
        say(`  ${ours.toFixed(0)} ms, ${(busyMs.at(-1) ?? 0).toFixed(0)} of processor time`);
      }
    } finally {
      await station.stop();
      await rm(home, { recursive: true, force: true });
    }
    return resultOf(
      {
        name: 'strike-20k',
        referenceName: '-',
        goal: 1000,
        better: 'lower',
        unit: 'ms',
        note: `40 shots, 690 heroes and selects with their verdicts; ${median(busyMs).toFixed(0)} ms of processor time.`,
      },
      runs,
    );
  },
};
