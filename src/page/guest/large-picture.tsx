import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import { guestLabels, markNames, pinNames } from '../../words/index.ts';
import { newId } from '../remarks/new-id.ts';
import { saidRemarks } from '../remarks/said-remarks.ts';
import type { OutboxOfPage } from '../remarks/use-outbox.ts';
import { BegunDrafts, type Draft } from './begun-drafts.ts';
import { PinnedPicture } from './pinned-picture.tsx';
import { RemarkPanel } from './remark-panel.tsx';

interface LargePictureProps {
  /** null while none is looked at. */
  readonly frame: Frame | null;
  readonly order: readonly Frame[];
  readonly onShow: (id: string | null) => void;
  readonly outbox: OutboxOfPage;
  /** What is said of the shot it belongs to. */
  readonly children: ReactNode;
}

/** One picture over the whole page, with the ones before and after it and what was said of it. */
export function LargePicture({ frame, order, onShow, outbox, children }: LargePictureProps): ReactNode {
  const dialog = useRef<HTMLDialogElement>(null);
  const [begun] = useState(() => new BegunDrafts());
  const isOpen = frame !== null;
  useEffect(() => {
    if (isOpen) dialog.current?.showModal();
    else dialog.current?.close();
  }, [isOpen]);
  return (
    <dialog ref={dialog} className="guest-large" aria-label={frame?.name ?? ''} onClose={() => onShow(null)}>
      {frame === null ? null : (
        <Spoken key={frame.id} frame={frame} order={order} onShow={onShow} outbox={outbox} begun={begun}>
          {children}
        </Spoken>
      )}
    </dialog>
  );
}

type SpokenProps = Omit<LargePictureProps, 'frame'> & {
  readonly frame: Frame;
  readonly begun: BegunDrafts;
};

function Spoken({ frame, order, onShow, outbox, begun, children }: SpokenProps): ReactNode {
  const [chosen, setChosen] = useState<string | null>(null);
  const [draft, setKept] = useState<Draft | null>(() => begun.of(frame.id));
  const setDraft = (next: Draft | null): void => {
    begun.keep(frame.id, next);
    setKept(next);
  };
  const write = (point: Draft['point']): void => setDraft({ point, text: draft?.text ?? '' });
  const at = order.findIndex(({ id }) => id === frame.id);
  const step = (by: -1 | 1): void => {
    const next = order[at + by];
    // What is being written is not lost to a finger that slipped.
    if (next !== undefined && draft === null) onShow(next.id);
  };
  const remarks = saidRemarks(frame, outbox.letters);
  const names = pinNames(remarks);
  const about = { job: frame.job, frame: frame.id };
  return (
    <>
      <PinnedPicture
        frame={frame}
        remarks={remarks}
        names={names}
        chosen={chosen}
        onChoose={setChosen}
        draft={draft?.point ?? null}
        onPoint={write}
        onStep={step}
      />
      <RemarkPanel
        remarks={remarks}
        chosen={chosen}
        outbox={outbox}
        draft={draft}
        onDraft={write}
        onText={(text) => setDraft({ point: draft?.point ?? null, text })}
        onLeave={() => setDraft(null)}
        onRemark={(text, name) => {
          const point = draft?.point ?? null;
          outbox.put({ kind: 'remark', ...about, body: { id: newId(), name, point, text } });
          setDraft(null);
        }}
        onAnswer={(remark, text, name) =>
          outbox.put({ kind: 'answer', ...about, remark, body: { id: newId(), name, text } })
        }
      >
        {children}
      </RemarkPanel>
      <footer>
        <button type="button" aria-label={guestLabels.earlier} disabled={at <= 0} onClick={() => step(-1)}>
          ‹
        </button>
        <p>
          {frame.name} {frame.mark === 'none' ? null : <strong>{markNames[frame.mark]}</strong>}
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
    </>
  );
}
