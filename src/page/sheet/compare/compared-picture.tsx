import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { Frame } from '../../../contract/index.ts';
import { type Mark, marks, type Question } from '../../../facts/index.ts';
import { contactLabels, frameSentence, markNames } from '../../../words/index.ts';
import { LaidCanvas } from '../../readings/laid-canvas.tsx';
import { clockTime } from '../../set/clock.ts';
import { PictureArea } from '../../set/picture-area.tsx';
import { usePlacing } from '../../set/use-placing.ts';
import { usePresentation } from '../../set/use-presentation.ts';
import { useZoom } from '../../set/use-zoom.ts';
import { VerdictShape } from '../../set/verdict-shape.tsx';
import { momentOf, type PageState, verdictsWithSettled } from '../../state/index.ts';
import type { SizeCssPx, ZoomStep } from '../../viewport/index.ts';
import { standingOf } from '../state/sheet-filter.ts';
import type { JoinedZooms } from './joined-zooms.ts';
import { RemarkPins } from './remark-pins.tsx';
import { useOver } from './use-over.ts';

interface ComparedPictureProps {
  readonly state: PageState;
  readonly frame: Frame;
  /** From 1: the key that leads here. */
  readonly at: number;
  readonly joined: JoinedZooms;
  readonly laid: Question | null;
  /** The keys are about this one. */
  readonly active: boolean;
  readonly onActive: () => void;
  readonly onMark: (mark: Mark) => void;
  readonly onSet: () => void;
  /** Hands out what moves its zoom while it is the active one. */
  readonly onTake: (take: (step: ZoomStep) => void) => void;
}

const chosenMarks = marks.filter((mark) => mark !== 'none');

/** One of the pictures that are compared, with what is said of it and how it is chosen. */
export function ComparedPicture(props: ComparedPictureProps): ReactNode {
  const { state, frame, at, joined, laid, active, onActive, onTake } = props;
  const [free, setFree] = useState<SizeCssPx | null>(null);
  const presentation = usePresentation(frame, state.frames, free);
  const zoom = useZoom();
  const over = useOver(state, frame, laid);
  const placing = usePlacing(presentation);
  const section = useRef<HTMLElement>(null);
  const { motion, take } = zoom;
  useEffect(() => joined.add(motion), [joined, motion]);
  useEffect(() => {
    if (active) onTake(take);
  }, [active, onTake, take]);
  useEffect(() => {
    const element = section.current;
    if (element === null) return;
    const lead = (): void => joined.lead(motion);
    // Before the hand is followed: it has to lead from its first movement.
    for (const type of ['wheel', 'pointerdown', 'focusin'] as const)
      element.addEventListener(type, lead, { capture: true, passive: true });
    return () => {
      for (const type of ['wheel', 'pointerdown', 'focusin'] as const)
        element.removeEventListener(type, lead, { capture: true });
    };
  }, [joined, motion]);
  useEffect(() => {
    if (active) joined.lead(motion);
  }, [active, joined, motion]);

  const picture = presentation?.picture ?? null;
  return (
    <section
      ref={section}
      className="compared"
      data-active={active}
      data-frame-id={frame.id}
      aria-label={contactLabels.picture(at, frame.name)}
      onPointerDown={onActive}
      onFocus={onActive}
    >
      <PictureArea presentation={presentation} free={free} onFree={setFree} zoom={zoom}>
        {picture === null || free === null || over === null || placing === null ? null : (
          <LaidCanvas
            laid={over}
            placing={placing}
            difference={false}
            picture={picture.full}
            free={free}
            zoom={zoom}
          />
        )}
        {picture === null || free === null ? null : (
          <RemarkPins frame={frame} picture={picture.full} free={free} zoom={zoom} />
        )}
      </PictureArea>
      <div className="compared-words paper">
        <p>
          <span className="compared-at">{at}</span>
          <VerdictShape judgement={standingOf(frame)} />
          <strong>{frame.name}</strong>
          <span>{clockTime(momentOf(frame))}</span>
        </p>
        <p className="compared-sentence">{frameSentence(verdictsWithSettled(frame))}</p>
        <fieldset className="hand-marks">
          <legend className="unseen">{contactLabels.mark}</legend>
          {chosenMarks.map((mark) => (
            <button
              key={mark}
              type="button"
              className="press"
              aria-pressed={frame.mark === mark}
              onClick={() => props.onMark(mark)}
            >
              {markNames[mark]}
            </button>
          ))}
          <button type="button" className="press" onClick={props.onSet}>
            {contactLabels.onSet}
          </button>
        </fieldset>
      </div>
    </section>
  );
}
