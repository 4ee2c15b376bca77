import { lstatSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

export interface CardListing {
  readonly files: readonly { readonly path: string; readonly sizeBytes: number }[];
  readonly passedOver: readonly string[];
}

/** What computers, not cameras, leave on a card (common practice, no source). */
const leftByComputers = new Set(['thumbs.db', 'desktop.ini', 'system volume information', '$recycle.bin']);

/**
 * Every file of a card, not the pictures of DCF (CIPA DC-009) alone: films lie in folders of their own. Links are passed
 * over, since what they point at is not on the card. Throws what the system throws.
 */
export function listCard(folder: string): CardListing {
  const files: { path: string; sizeBytes: number }[] = [];
  const passedOver: string[] = [];
  const toRead = [''];
  for (let below = toRead.pop(); below !== undefined; below = toRead.pop()) {
    for (const entry of readdirSync(join(folder, below), { withFileTypes: true })) {
      const path = below === '' ? entry.name : `${below}/${entry.name}`;
      const isLeft = entry.name.startsWith('.') || leftByComputers.has(entry.name.toLowerCase());
      if (!isLeft && entry.isDirectory()) toRead.push(path);
      else if (!isLeft && entry.isFile()) files.push({ path, sizeBytes: lstatSync(join(folder, path)).size });
      else passedOver.push(path);
    }
  }
  files.sort((a, b) => (a.path < b.path ? -1 : 1));
  return { files, passedOver: passedOver.sort() };
}
