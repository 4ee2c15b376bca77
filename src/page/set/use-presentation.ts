import { useEffect, useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import type { DrawnPicture } from '../drawer/index.ts';
import { BitmapLoader, type HeldBitmap } from '../loader/bitmap-loader.ts';
import type { FrameList } from '../state/index.ts';
import { liesOnItsSide, type SizeCssPx, type SizeImagePx } from '../viewport/index.ts';
import { type PictureSource, pictureSource } from './picture-source.ts';
import { useDevicePixelRatio } from './use-media.ts';

/** What is on the page now: one frame, spoken of everywhere alike, and its picture where there is one. */
export interface Presentation {
  readonly frame: Frame;
  readonly picture: PresentedPicture | null;
  /** The picture should be here and has not come through. */
  readonly waiting: boolean;
}

export interface PresentedPicture extends DrawnPicture {
  readonly kind: PictureSource['kind'];
}

interface Shown {
  readonly frameId: string;
  readonly source: PictureSource;
  readonly held: HeldBitmap;
}

/** Two full screens of four thousand pixels' width, for stepping to and fro. */
const loader = new BitmapLoader({ cacheBytesMax: 160 * 1024 * 1024, decodeWidthPx: null });
/** So long may a picture take before the frame is presented without it. */
const patienceMs = 600;
const retryMs: readonly number[] = [300, 1_000, 3_000];

/**
 * Presents the wanted frame when its picture is decoded to the last pixel, and until then what was there before: the
 * words and the picture change together, and nothing blank is ever shown between.
 */
export function usePresentation(
  wanted: Frame | null,
  frames: FrameList,
  free: SizeCssPx | null,
): Presentation | null {
  const devicePixelRatio = useDevicePixelRatio();
  const source = wanted === null || free === null ? null : pictureSource(wanted, free, devicePixelRatio);
  const shown = useLoaded(wanted?.id ?? null, source);
  const impatient = useImpatience(
    source === null || shown?.frameId === wanted?.id ? null : (wanted?.id ?? null),
  );
  if (wanted === null) return null;
  if (source === null) return { frame: wanted, picture: null, waiting: false };
  if (shown?.frameId === wanted.id) return { frame: wanted, picture: presented(shown), waiting: false };
  const before = shown === null ? undefined : frames.byId.get(shown.frameId);
  if (shown === null || before === undefined || impatient)
    return { frame: wanted, picture: null, waiting: impatient };
  return { frame: before, picture: presented(shown), waiting: false };
}

function presented({ source, held }: Shown): PresentedPicture {
  const { bitmap } = held;
  return {
    bitmap,
    orientation: source.orientation,
    full: source.full ?? uprightSize(bitmap, source),
    kind: source.kind,
  };
}

function uprightSize(bitmap: ImageBitmap, source: PictureSource): SizeImagePx {
  return liesOnItsSide(source.orientation)
    ? { widthPx: bitmap.height, heightPx: bitmap.width }
    : { widthPx: bitmap.width, heightPx: bitmap.height };
}

/** The latest source that has been loaded; the one before stays until then. */
function useLoaded(frameId: string | null, source: PictureSource | null): Shown | null {
  const [shown, setShown] = useState<Shown | null>(null);
  useEffect(() => () => shown?.held.letGo(), [shown]);
  const address = source?.address ?? null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the address names the source; a new object is no new picture
  useEffect(() => {
    if (frameId === null || source === null) {
      setShown(null);
      return;
    }
    const given = new AbortController();
    void holdWithRetries(source.address, given.signal).then((held) => {
      if (held === null) return;
      if (given.signal.aborted) held.letGo();
      else setShown({ frameId, source, held });
    });
    return () => given.abort();
  }, [frameId, address]);
  return shown;
}

async function holdWithRetries(address: string, signal: AbortSignal): Promise<HeldBitmap | null> {
  for (let attempt = 0; !signal.aborted; attempt += 1) {
    try {
      return await loader.hold(address);
    } catch {
      await pause(retryMs[Math.min(attempt, retryMs.length - 1)] ?? 0, signal);
    }
  }
  return null;
}

function pause(ms: number, signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const timer = setTimeout(resolve, ms);
    signal.addEventListener('abort', () => {
      clearTimeout(timer);
      resolve();
    });
  });
}

/** Whether this frame has been waited for longer than patience lasts. */
function useImpatience(frameId: string | null): boolean {
  const [givenUpOn, giveUpOn] = useState<string | null>(null);
  useEffect(() => {
    if (frameId === null) return;
    const timer = setTimeout(() => giveUpOn(frameId), patienceMs);
    return () => clearTimeout(timer);
  }, [frameId]);
  return frameId !== null && givenUpOn === frameId;
}
