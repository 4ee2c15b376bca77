import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { link, mkdir, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { librawJpeg } from './libraw-reference.ts';
import { type Bench, type Run, resultOf } from './measure.ts';
import { benchRaws } from './raws.ts';
import { root } from './station.ts';

const referenceName = "LibRaw's command line at its default quality (dcraw_emu -w) and one JPEG by libvips";
const note =
  'Ours is the whole command: start of the process, the look compiled, raw read and decoded, hot pixels found, demosaiced, looked, encoded, written. The look mixes channels, so every pixel goes through its lattice.';

/** One raw to a full-size JPEG with a look. */
export const developFull: Bench = {
  name: 'develop-full',
  about: 'one 24-megapixel raw to a full-size JPEG with a look',
  async measure(rounds, say) {
    const raws = await benchRaws(Math.min(rounds, distinctRaws), say);
    const pairs = Array.from({ length: rounds }, (_, round) => [raws[round % raws.length] ?? '']);
    const facts = {
      name: 'develop-full',
      referenceName,
      goal: 0.6,
      better: 'lower',
      unit: 'ms',
      note,
    } as const;
    return resultOf(facts, await inPairs(pairs, 1, say));
  },
};

/** Twenty raws to full-size JPEGs with a look. */
export const developMany: Bench = {
  name: 'develop-many',
  about: 'twenty 24-megapixel raws to full-size JPEGs with a look',
  async measure(rounds, say) {
    const raws = await benchRaws(distinctRaws, say);
    const folder = await mkdtemp(join(root, '.cache/develop-many-'));
    try {
      const twenty = await linked(raws, 20, folder);
      const runs = await inPairs(Array(rounds).fill(twenty), 2, say);
      const facts = { name: 'develop-many', goal: 0.6, better: 'lower', unit: 'ms' } as const;
      const named = {
        referenceName: `${referenceName}, two at a time`,
        note: `${note} ${distinctRaws} raws, each under several names.`,
      };
      return resultOf({ ...facts, ...named }, runs);
    } finally {
      await rm(folder, { recursive: true });
    }
  },
};

/** What our JPEGs are written with: 4:4:4 and standard Huffman tables. */
const jpeg = { quality: 90, chromaSubsampling: '4:4:4', optimizeCoding: false } as const;

/** Different raws; more would only take longer to make. */
const distinctRaws = 6;

/** `count` names for the raws in turn: no two neighbours are the same, and each name is decoded anew. */
async function linked(raws: readonly string[], count: number, folder: string): Promise<string[]> {
  const names = Array.from({ length: count }, (_, at) =>
    join(folder, `BNCH${String(at + 1).padStart(4, '0')}.DNG`),
  );
  for (const [at, name] of names.entries()) await link(raws[at % raws.length] ?? '', name);
  return names;
}

/** Ours and the reference in turn; which goes first changes, since the second finds what it reads in memory. */
async function inPairs(
  batches: readonly (readonly string[])[],
  referenceLanes: number,
  say: (line: string) => void,
): Promise<Run[]> {
  const out = await mkdtemp(join(root, '.cache/develop-'));
  const runs: Run[] = [];
  try {
    const look = join(out, 'look.cc');
    await writeFile(look, colourCorrection);
    for (const [round, files] of batches.entries()) {
      const first = round % 2 === 0 ? null : await referenceMs(files, referenceLanes, out);
      const ours = await oursMs(files, look, join(out, String(round)));
      const reference = first ?? (await referenceMs(files, referenceLanes, out));
      runs.push({ ours, reference });
      say(`  ours ${ours.toFixed(0)} ms, reference ${reference.toFixed(0)} ms`);
    }
  } finally {
    await rm(out, { recursive: true });
  }
  return runs;
}

async function oursMs(files: readonly string[], look: string, out: string): Promise<number> {
  await mkdir(out);
  const start = performance.now();
  const args = ['develop', '--size', 'full', '--look', look, '--out', out, '--json', ...files];
  const run = spawn(process.execPath, [join(root, 'bin/setside.mjs'), ...args], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  const [status] = await once(run, 'close');
  const ms = performance.now() - start;
  if (status !== 0) throw new Error(`setside develop ended with ${status}`);
  if ((await readdir(out)).length !== files.length) throw new Error('setside develop left files out');
  await rm(out, { recursive: true });
  return ms;
}

async function referenceMs(files: readonly string[], lanes: number, out: string): Promise<number> {
  const start = performance.now();
  const waiting = [...files];
  const lane = async (name: string): Promise<void> => {
    for (let file = waiting.shift(); file !== undefined; file = waiting.shift()) {
      await writeFile(join(out, name), await librawJpeg(file, [], jpeg));
    }
  };
  await Promise.all(Array.from({ length: lanes }, (_, at) => lane(`reference-${at}.jpg`)));
  return performance.now() - start;
}

/** ASC CDL v1.2: a saturation beside 1 mixes the channels. */
const colourCorrection = `<?xml version="1.0" encoding="UTF-8"?>
<ColorCorrection id="bench" xmlns="urn:ASC:CDL:v1.2">
  <SOPNode><Slope>1.04 1 0.97</Slope><Offset>0 0 0.004</Offset><Power>1 1 1.02</Power></SOPNode>
  <SatNode><Saturation>1.1</Saturation></SatNode>
</ColorCorrection>
`;
