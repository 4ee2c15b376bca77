import { useEffect, useMemo, useState } from 'react';
import type { FramePicture } from '../../contract/index.ts';
import { layoutAddress, pictureAddress } from '../link/index.ts';
import { BitmapLoader, type HeldBitmap } from '../loader/bitmap-loader.ts';
import type { FrameList, HeldAgainst } from '../state/index.ts';
import { type Placing, placingOf } from './geometry/placing.ts';
import { withoutPicture } from './without-picture.ts';

/** One large screen's picture, and the one before. */
const loader = new BitmapLoader({ cacheBytesMax: 48 * 1024 * 1024, decodeWidthPx: null });
/** As wide as a large screen: the reference lies under a hand's breadth of the picture, not under a loupe. */
const widthPx = 1920;

export interface SeenReference {
  readonly state: 'here';
  readonly bitmap: ImageBitmap;
  /** Where its own look put it; null where that was not told. */
  readonly of: Placing | null;
}

export type ReferencePicture = { readonly state: 'none' | 'loading' | 'failed' } | SeenReference;

/** The picture that a frame is held against, upright; loaded while somebody wants to see it. */
export function useReference(
  against: HeldAgainst | null,
  frames: FrameList,
  wanted: boolean,
): ReferencePicture {
  const address = wanted ? addressOf(against, frames) : null;
  const [shown, setShown] = useState<{ readonly address: string; readonly held: HeldBitmap | null } | null>(
    null,
  );
  useEffect(() => () => shown?.held?.letGo(), [shown]);
  useEffect(() => {
    if (address === null) return;
    const given = new AbortController();
    loader.hold(address).then(
      (held) => {
        if (given.signal.aborted) held.letGo();
        else setShown({ address, held });
      },
      () => {
        if (!given.signal.aborted) setShown({ address, held: null });
      },
    );
    return () => given.abort();
  }, [address]);
  const picture =
    against?.kind === 'layout' || against === null ? null : (frames.byId.get(against.id)?.picture ?? null);
  const bitmap = shown?.held?.bitmap ?? null;
  // The same as long as nothing of it changes: what lies over the picture is made anew with it.
  const seen = useMemo(() => seenOf(bitmap, picture), [bitmap, picture]);
  if (address === null) return { state: withoutPicture(against, wanted) };
  if (shown === null || shown.address !== address) return { state: 'loading' };
  return seen ?? { state: 'failed' };
}

/** Null where nothing of it can be shown. */
function addressOf(against: HeldAgainst | null, frames: FrameList): string | null {
  if (against === null) return null;
  if (against.kind === 'layout')
    return `${layoutAddress(against.job, against.shot, widthPx)}&v=${encodeURIComponent(against.layout)}`;
  const picture = frames.byId.get(against.id)?.picture;
  return picture?.state === 'rendered' ? pictureAddress(against.id, widthPx, picture.version) : null;
}

function seenOf(bitmap: ImageBitmap | null, picture: FramePicture | null): SeenReference | null {
  if (bitmap === null) return null;
  const of = placingOf(picture ?? { state: 'none' }, bitmap);
  return { state: 'here', bitmap, of };
}
