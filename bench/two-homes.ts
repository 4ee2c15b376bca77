import { rm } from 'node:fs/promises';
import { setTimeout as pause } from 'node:timers/promises';
import { homeOfMany } from './many-frames.ts';
import { processorS } from './processor.ts';
import { type BenchStation, startBenchStation } from './station.ts';

/** The same job with few frames and with many, a station on each, both at rest. */
export interface TwoHomes {
  readonly few: BenchStation;
  readonly many: BenchStation;
  close(): Promise<void>;
}

export async function openTwoHomes(
  few: number,
  many: number,
  say: (line: string) => void,
): Promise<TwoHomes> {
  const homes = [await homeOfMany(few, say), await homeOfMany(many, say)];
  const [fewHome = '', manyHome = ''] = homes;
  const stations = [await startBenchStation(fewHome), await startBenchStation(manyHome)];
  const [fewStation, manyStation] = stations;
  if (fewStation === undefined || manyStation === undefined) throw new Error('two stations were started');
  for (const station of stations) await untilAtRest(station);
  return {
    few: fewStation,
    many: manyStation,
    close: async () => {
      for (const station of stations) await station.stop();
      for (const home of homes) await rm(home, { recursive: true, force: true });
    },
  };
}

/** What the start left to do shall be done: less than a twentieth of a core over two seconds. */
export async function untilAtRest({ pid }: BenchStation): Promise<void> {
  for (;;) {
    const before = await processorS(pid);
    await pause(2_000);
    if ((await processorS(pid)) - before < 0.1) return;
  }
}
