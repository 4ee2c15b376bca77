import { useCallback, useEffect, useState } from 'react';
import type { Frame } from '../../../contract/index.ts';
import type { Size } from '../../../image/index.ts';
import { type LookProfile, unknownProfile } from '../../../look/index.ts';
import type { PictureBox } from '../../viewport/index.ts';
import type { LookWork } from '../off-thread/look-work.ts';
import { type SceneState, useScene } from './use-scene.ts';

export interface Picture {
  readonly scene: SceneState;
  readonly again: () => void;
  /** What a look has to know of the picture. */
  readonly profile: LookProfile;
  /** The whole upright original; null while there is no picture. */
  readonly full: Size | null;
  /** Of the frame's picture. */
  readonly version: number;
  /** Width of the box that the picture lies in, as it is asked for: pixels of the device, in steps. */
  readonly boxWidth: number | null;
  readonly onFree: (box: PictureBox) => void;
}

/** No more is sent at once; closer looks are the station's regions. */
const sceneWidthMax = 2048;

/** The light of a frame as large as it is shown. */
export function usePicture(frame: Frame | null, work: LookWork | null): Picture {
  const [boxWidth, setBoxWidth] = useState<number | null>(null);
  const [profile, setProfile] = useState<LookProfile>(unknownProfile);
  const shownSize = sizeOf(frame);
  const version = frame?.picture.state === 'rendered' ? frame.picture.version : 0;
  const { again, ...scene } = useScene(frame?.id ?? '', version, shownSize === null ? null : boxWidth, work);
  // The frame may be rendered with a crop; a look is put on all of it.
  const full = shownSize === null ? null : (scene.facts?.full ?? shownSize);
  useEffect(() => {
    if (scene.facts !== null) setProfile(scene.facts.profile);
  }, [scene.facts]);
  const onFree = useCallback(
    ({ widthDevicePx }: PictureBox) => setBoxWidth((held) => widthFor(widthDevicePx, held)),
    [],
  );
  return { scene, again, profile, full, version, boxWidth, onFree };
}

function sizeOf(frame: Frame | null): { readonly widthPx: number; readonly heightPx: number } | null {
  if (frame?.picture.state !== 'rendered') return null;
  return { widthPx: frame.picture.width, heightPx: frame.picture.height };
}

/** In steps; a picture that becomes a little smaller, as when an instrument is taken out, keeps the light it has. */
function widthFor(widthDevicePx: number, held: number | null): number {
  const wanted = Math.min(sceneWidthMax, Math.max(64, Math.ceil(widthDevicePx / 64) * 64));
  return held !== null && wanted <= held && wanted > held * keptShare ? held : wanted;
}

const keptShare = 0.7;
