import { type ReactNode, useEffect, useRef } from 'react';
import type { Frame } from '../../contract/index.ts';
import { canvasDrawer } from '../drawer/index.ts';
import { BitmapLoader } from '../loader/bitmap-loader.ts';
import { fitBox, liesOnItsSide } from '../viewport/index.ts';
import { type PictureSource, pictureSource } from './picture-source.ts';

/** Some three hundred small pictures. */
const loader = new BitmapLoader({ cacheBytesMax: 48 * 1024 * 1024, decodeWidthPx: 280 });
/** The space a small picture has on the rail, CSS pixels; drawn twice as fine for sharp screens. */
const space = { widthCssPx: 136, heightCssPx: 90 };
const finePx = 2;

/** The picture of a frame at the size of the rail; the one before stays until a better one is decoded. */
export function SmallPicture({ frame }: { readonly frame: Frame }): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const source = pictureSource(frame, space, 1);
  const address = source?.address ?? null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the address names the source; a new object is no new picture
  useEffect(() => {
    const element = canvas.current;
    if (element === null || source === null) return;
    let stale = false;
    loader.hold(source.address).then(
      (held) => {
        if (!stale) drawSmall(element, source, held.bitmap);
        held.letGo();
      },
      // A small picture that does not come leaves its place empty; the large one says why.
      () => undefined,
    );
    return () => {
      stale = true;
    };
  }, [address]);
  return <canvas ref={canvas} className="small-picture" width="1" height="1" />;
}

function drawSmall(canvas: HTMLCanvasElement, source: PictureSource, bitmap: ImageBitmap): void {
  const { width, height } = bitmap;
  const full =
    source.full ??
    (liesOnItsSide(source.orientation)
      ? { widthPx: height, heightPx: width }
      : { widthPx: width, heightPx: height });
  const box = fitBox(full, space, finePx);
  canvasDrawer(canvas).draw({ bitmap, orientation: source.orientation, full }, box);
}
