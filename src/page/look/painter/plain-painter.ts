import type { Painted, PaintRequest } from './paint-worker.ts';
import type { Drawing, Painter } from './painter.ts';

/** A painter without WebGL: a worker applies the tables, the canvas is given the pixels. */
export function plainPainter(canvas: HTMLCanvasElement): Painter {
  const worker = new Worker(new URL('./paint-worker.ts', import.meta.url), { type: 'module' });
  const ask = (request: PaintRequest): void => worker.postMessage(request);
  let waiting: Drawing | null = null;
  let isBusy = false;
  const next = (): void => {
    if (isBusy || waiting === null) return;
    isBusy = true;
    ask({ kind: 'draw', drawing: waiting });
    waiting = null;
  };
  worker.addEventListener('message', ({ data }: MessageEvent<Painted | null>) => {
    isBusy = false;
    if (data !== null) show(canvas, data);
    next();
  });
  return {
    kind: 'plain',
    setScene: (scene) => ask({ kind: 'scene', scene }),
    setTables: (side, tables) => ask({ kind: 'tables', side, tables }),
    // Only the newest is drawn.
    draw: (drawing) => {
      waiting = drawing;
      next();
    },
    close: () => worker.terminate(),
  };
}

function show(canvas: HTMLCanvasElement, { pixels, widthPx, heightPx }: Painted): void {
  canvas.width = widthPx;
  canvas.height = heightPx;
  canvas.getContext('2d')?.putImageData(new ImageData(pixels, widthPx, heightPx), 0, 0);
}
