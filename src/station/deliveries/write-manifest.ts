import { open, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { manifestCsv, manifestJson } from '../../deliver/index.ts';
import { sentence } from '../../words/index.ts';
import type { DeliveryRun } from './delivery-run.ts';

export const manifestNames = ['manifest.json', 'manifest.csv'] as const;

/** Durable when it settles. */
export async function writeManifest(run: DeliveryRun, folder: string): Promise<void> {
  const manifest = run.manifest();
  const [json, csv] = manifestNames;
  await writeWhole(join(folder, json), manifestJson(manifest));
  await writeWhole(
    join(folder, csv),
    manifestCsv(manifest, (each) => sentence(each)),
  );
  // The files' names too, before anybody is told that it is done.
  const directory = await open(folder, 'r');
  await directory.sync().finally(() => directory.close());
}

async function writeWhole(path: string, text: string): Promise<void> {
  await writeFile(`${path}.part`, text, { flush: true });
  await rename(`${path}.part`, path);
}
