import { isSidecar } from '../../judge/index.ts';
import type { FrameRow } from '../../register/index.ts';

/**
 * Where the sidecar of a frame would like to lie, below the home, best first: `jobs/CODE/sidecars/CAMERA/IMG_0001.xmp`, in
 * a tree beside that of the originals, so that it can never be, nor replace, a file that a camera sent. The second is for a
 * frame whose first place another frame has: of a name that came round again, or of a film of the same number. Empty for a
 * frame of which nothing is kept.
 */
export function sidecarPaths({ files }: Pick<FrameRow, 'files'>): readonly string[] {
  const kept = files.flatMap(({ name, path }) => (path === null || isSidecar(name) ? [] : [path]));
  const [path] = kept;
  const match = /^(jobs\/[^/]+)\/originals\/(.+)$/.exec(path ?? '');
  if (match === null) return [];
  const beside = `${match[1]}/sidecars/${match[2]}`;
  return [`${beside.replace(/\.[^./]*$/, '')}.xmp`, `${beside}.xmp`];
}
