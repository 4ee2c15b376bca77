import { spawnSync } from 'node:child_process';
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { type Bench, type Run, resultOf } from './measure.ts';
import { benchRaws } from './raws.ts';
import { root } from './station.ts';

const paceBytesPerSecond = 4e6;

/** One line of `setside judge --json`. */
interface JudgedLine {
  readonly path: string;
  readonly timings: { readonly decodeMs: number; readonly judgeMs: number };
}

/** Every reading of a 24-megapixel raw that its worker has decoded, against the time its bytes are on the line. */
export const judge: Bench = {
  name: 'judge',
  about: 'every reading of a decoded 24-megapixel raw',
  async measure(rounds, say) {
    // The first one warms the worker up, as the first frame of a set does.
    const [first = '', ...raws] = await benchRaws(rounds + 1, say);
    // Held against the first: laid on it, and looked through for a target.
    const command = [join(root, 'bin/setside.mjs'), 'judge', '--json', '--reference', first, first, ...raws];
    // 1 says that one of them is bad.
    const { stdout, status } = spawnSync(process.execPath, command, { encoding: 'utf8', maxBuffer: 1 << 28 });
    if (status !== 0 && status !== 1) throw new Error('setside judge failed');
    const lines: JudgedLine[] = stdout
      .trim()
      .split('\n')
      .slice(1)
      .map((line) => JSON.parse(line));
    const runs = lines.map(({ path, timings }): Run => {
      const reference = (statSync(path).size / paceBytesPerSecond) * 1000;
      say(`  ours ${timings.judgeMs.toFixed(0)} ms, on the line ${reference.toFixed(0)} ms`);
      return { ours: timings.judgeMs, reference };
    });
    return resultOf(
      {
        name: 'judge',
        referenceName: 'time of the same file on a line of 4 MB/s',
        goal: 0.15,
        better: 'lower',
        unit: 'ms',
        note: 'Sharpness, exposure, light, stripes, backdrop, place against a reference and the search for a target, of 24 megapixels in one thread; decoding is shared with developing and not in it.',
      },
      runs,
    );
  },
};
