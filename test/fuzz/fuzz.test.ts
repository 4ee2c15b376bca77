import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { fixedSeed } from '../chance.ts';
import { BlockCoverage } from './block-coverage.ts';
import { fuzz, runOnce } from './fuzz.ts';
import { targets } from './targets/index.ts';
import { startWatchdog } from './watchdog.ts';

/**
 * `npm run fuzz -- --seconds 600 formats` runs this for longer. Here each target gets a few seconds: 30 in all in
 * continuous integration. What is found is saved to `corpus/`, fails, and is tried again by every run from then on.
 */
const seconds = Number(process.env.SETSIDE_FUZZ_SECONDS ?? (process.env.CI === 'true' ? 7.5 : 1));
const chosen = process.env.SETSIDE_FUZZ_TARGET ?? '';
const seed = Number(process.env.SETSIDE_FUZZ_SEED ?? fixedSeed ?? Date.now() % 2 ** 31);
const corpusOf = (name: string): string => join(import.meta.dirname, 'corpus', name);

// Before the first target loads its sources.
const coverage = new BlockCoverage();
afterAll(() => coverage.stop());

for (const name of Object.keys(targets).filter((each) => chosen === '' || each === chosen)) {
  describe(name, () => {
    const folder = corpusOf(name);
    const found = existsSync(folder) ? readdirSync(folder).sort() : [];

    test(`what was found before is mended: ${found.length} inputs`, async () => {
      const target = await targets[name]();
      for (const file of found) {
        expect(await runOnce(target, readFileSync(join(folder, file))), file).toBeNull();
      }
    });

    test('nothing that chance and coverage lead to breaks an invariant', {
      timeout: seconds * 1000 + 120_000,
    }, async () => {
      const target = await targets[name]();
      const watchdog = startWatchdog(join(folder, `hang-${seed}.bin`), target.inputBytesMax);
      const { runs, corpus, blocks, finding } = await fuzz(target, coverage, seconds * 1000, seed, watchdog);
      await watchdog.stop();
      console.log(`${name}: ${runs} inputs, ${corpus.length} kept, ${blocks} blocks reached, seed ${seed}`);
      if (finding !== null) {
        const file = `${createHash('sha256').update(finding.input).digest('hex').slice(0, 12)}.bin`;
        mkdirSync(folder, { recursive: true });
        writeFileSync(join(folder, file), finding.input);
        throw new Error(`saved as ${join(folder, file)}`, { cause: finding.error });
      }
      // Without coverage nothing would guide it: a sign that the measuring is broken.
      expect(blocks).toBeGreaterThan(100);
    });
  });
}
