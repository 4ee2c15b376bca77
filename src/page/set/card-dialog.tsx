import { type ReactNode, useEffect, useId, useRef } from 'react';
import { pageLabels } from '../../words/index.ts';

interface CardDialogProps {
  readonly title: string;
  readonly open: boolean;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A paper card laid over the page. The browser's own dialog keeps focus inside and gives it back. */
export function CardDialog({ title, open, onClose, children }: CardDialogProps): ReactNode {
  const dialog = useRef<HTMLDialogElement>(null);
  const heading = useId();
  useEffect(() => {
    if (open) dialog.current?.showModal();
    else dialog.current?.close();
  }, [open]);
  return (
    <dialog ref={dialog} className="card-dialog paper" aria-labelledby={heading} onClose={onClose}>
      <header>
        <h2 id={heading}>{title}</h2>
        <button type="button" onClick={onClose}>
          {pageLabels.close}
        </button>
      </header>
      {open ? children : null}
    </dialog>
  );
}
