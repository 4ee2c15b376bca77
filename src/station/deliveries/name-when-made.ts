import { nameFiles, placeholdersOf, type Specification } from '../../deliver/index.ts';
import type { DeliveryOrder, OrderedFrame } from './delivery-log.ts';

const extensions: Readonly<Record<Specification['format']['kind'], string>> = {
  jpeg: '.jpg',
  tiff: '.tif',
  png: '.png',
  webp: '.webp',
  avif: '.avif',
};

export function extensionOf({ format }: Specification): string {
  return extensions[format.kind];
}

export function numberText(number: number): string {
  return String(number).padStart(4, '0');
}

/**
 * The name of the file that is about to be made. Where names hold a number it counts files, not frames: one that could not be made
 * leaves no gap for the client to ask about. `named`: the names that frames of this delivery have had so far, by frame, also of files
 * that were lost since; a frame that had one keeps it, so that going on after a crash makes the same names.
 */
export function nameWhenMade(
  { template, specification }: Pick<DeliveryOrder, 'template' | 'specification'>,
  { frame, file, naming }: OrderedFrame,
  named: ReadonlyMap<string, string>,
): string {
  const before = named.get(frame);
  if (before !== undefined) return before;
  // A delivery that an earlier edition began has its names already.
  if (template === null || naming === null || !placeholdersOf(template).known.includes('number')) return file;
  const values = { ...naming, number: numberText(named.size + 1) };
  const [next] = nameFiles(template, [values], extensionOf(specification), named.values());
  return next?.name ?? file;
}
