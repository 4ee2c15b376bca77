import type { Frame } from '../../contract/index.ts';

/**
 * A frame by all of its files, the largest first: `QM0002.DNG + JPG`. That the raw is there is seen by its name and not
 * only by the JPEG's.
 */
export function filesName({ name, files }: Frame): string {
  const names = [...new Set(bySize(files).map((file) => file.name))];
  const [first, ...others] = names;
  if (first === undefined || others.length === 0) return name;
  const stem = stemOf(first);
  return [
    first,
    ...others.map((other) => (stemOf(other) === stem ? extensionOf(other) || other : other)),
  ].join(' + ');
}

/** The files of a frame, the largest first. */
export function bySize(files: Frame['files']): Frame['files'] {
  return [...files].sort((one, other) => other.size - one.size);
}

function stemOf(name: string): string {
  const dot = name.lastIndexOf('.');
  return dot > 0 ? name.slice(0, dot) : name;
}

function extensionOf(name: string): string {
  return name.slice(stemOf(name).length + 1);
}
