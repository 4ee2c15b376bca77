import { type ReactNode, useEffect, useRef } from 'react';
import type { Frame } from '../../contract/index.ts';
import { guestLabels, markNames } from '../../words/index.ts';
import { pictureAddress } from '../link/index.ts';
import { useSwipe } from '../pocket/use-swipe.ts';

/** As wide as large screens are. */
const widthPx = 2560;

interface LargePictureProps {
  /** null while none is looked at. */
  readonly frame: Frame | null;
  readonly order: readonly Frame[];
  readonly onShow: (id: string | null) => void;
}

/** One picture over the whole page, with the ones before and after it. */
export function LargePicture({ frame, order, onShow }: LargePictureProps): ReactNode {
  const dialog = useRef<HTMLDialogElement>(null);
  const at = order.findIndex(({ id }) => id === frame?.id);
  const step = (by: -1 | 1): void => {
    const next = order[at + by];
    if (next !== undefined) onShow(next.id);
  };
  const isOpen = frame !== null;
  useEffect(() => {
    if (isOpen) dialog.current?.showModal();
    else dialog.current?.close();
  }, [isOpen]);
  useSwipe(dialog, step);
  return (
    <dialog ref={dialog} className="guest-large" aria-label={frame?.name ?? ''} onClose={() => onShow(null)}>
      {frame?.picture.state === 'rendered' ? (
        <img
          src={pictureAddress(frame.id, widthPx, frame.picture.version)}
          width={frame.picture.width}
          height={frame.picture.height}
          alt={frame.name}
          draggable={false}
        />
      ) : null}
      <footer>
        <button type="button" aria-label={guestLabels.earlier} disabled={at <= 0} onClick={() => step(-1)}>
          ‹
        </button>
        <p>
          {frame?.name ?? ''}{' '}
          {frame === null || frame.mark === 'none' ? null : <strong>{markNames[frame.mark]}</strong>}
        </p>
        <button type="button" onClick={() => onShow(null)}>
          {guestLabels.close}
        </button>
        <button
          type="button"
          aria-label={guestLabels.later}
          disabled={at + 1 >= order.length}
          onClick={() => step(1)}
        >
          ›
        </button>
      </footer>
    </dialog>
  );
}
