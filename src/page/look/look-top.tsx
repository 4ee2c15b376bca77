import type { ReactNode } from 'react';
import { lookLabels, lookStandPhrase, pageLabels } from '../../words/index.ts';
import { addressOf, type PageState } from '../state/index.ts';
import type { Work } from './state/use-working.ts';
import { changesSince } from './state/working.ts';
import type { Subject } from './subject.ts';
import { type Seen, truthOf } from './truth.ts';

interface LookTopProps {
  readonly state: PageState;
  readonly subject: Subject;
  readonly work: Work;
  readonly before: boolean;
  readonly onBefore: () => void;
  /** Two versions lie over the picture: what shows it in another way waits. */
  readonly isCompared: boolean;
  readonly closely: boolean;
  readonly onClosely: () => void;
  readonly onFrame: (id: string) => void;
  readonly onSave: () => void;
  readonly seen: Seen;
}

/** The slip above the picture: which frame, which look and how far it was turned, and whether it is what is delivered. */
export function LookTop(props: LookTopProps): ReactNode {
  const { subject, work } = props;
  const { history } = work.working;
  const { base } = history.present;
  const { frame, frames } = subject;
  const truth = truthOf(props.seen);
  const at = frames.findIndex(({ id }) => id === frame?.id);
  const [earlier, later] = [frames[at - 1], at < 0 ? undefined : frames[at + 1]];
  return (
    <header className="look-top paper">
      <a className="skip" href="#picture">
        {lookLabels.toPicture}
      </a>
      <a className="skip" href="#look-strip">
        {lookLabels.toInstruments}
      </a>
      <a href={`/${addressOf({ page: 'set' })}`}>← {lookLabels.toSet}</a>
      <span className="look-frame">
        <button
          type="button"
          className="press"
          aria-label={pageLabels.keyEarlier}
          disabled={earlier === undefined}
          onClick={() => earlier !== undefined && props.onFrame(earlier.id)}
        >
          ‹
        </button>
        <strong>{frame?.name ?? '–'}</strong>
        <button
          type="button"
          className="press"
          aria-label={pageLabels.keyLater}
          disabled={later === undefined}
          onClick={() => later !== undefined && props.onFrame(later.id)}
        >
          ›
        </button>
      </span>
      <span className="look-stand">
        {lookStandPhrase(base.name, base.version, changesSince(history.present))}
      </span>
      <span className="look-truth" role="status" data-testid="look-truth" title={truth}>
        {truth}
      </span>
      <span className="look-presses">
        <button type="button" className="press" disabled={history.past.length === 0} onClick={work.undo}>
          {lookLabels.undo}
        </button>
        <button type="button" className="press" disabled={history.future.length === 0} onClick={work.redo}>
          {lookLabels.redo}
        </button>
        <button
          type="button"
          className="press"
          aria-pressed={props.closely}
          disabled={props.isCompared}
          onClick={props.onClosely}
        >
          {lookLabels.closely}
        </button>
        <button
          type="button"
          className="press"
          aria-pressed={props.before}
          disabled={props.isCompared}
          onClick={props.onBefore}
        >
          {lookLabels.before}
        </button>
        <button type="button" className="press" onClick={props.onSave}>
          {lookLabels.saveShort}
        </button>
      </span>
    </header>
  );
}
