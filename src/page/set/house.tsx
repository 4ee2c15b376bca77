import { type Dispatch, type ReactNode, useEffect, useId, useRef, useState } from 'react';
import { andMorePhrase, lineLabels, pageLabels, sentence } from '../../words/index.ts';
import { PlainWords } from '../plain-words.tsx';
import { addressOf, type HouseFinding, type PageAction } from '../state/index.ts';
import { useFit } from './use-fit.ts';
import { VerdictShape } from './verdict-shape.tsx';

interface HouseProps {
  /** The most pressing first. */
  readonly findings: readonly HouseFinding[];
  readonly dispatch: Dispatch<PageAction>;
}

/**
 * What needs a look besides the frame: the most pressing of it in the card, which never grows, and how many there are
 * beside; all of it on a sheet that is laid over the picture's edge on demand.
 */
export function House({ findings, dispatch }: HouseProps): ReactNode {
  const [open, setOpen] = useState(false);
  const sheet = useId();
  const text = useRef<HTMLParagraphElement>(null);
  const [first] = findings;
  const said = first === undefined ? '' : sentence(first.finding);
  const cut = useFit(text, said, '.sentence-card', 1);
  const more = findings.length - 1;
  const isNeeded = more > 0 || cut;
  useClosedByEscape(open, () => setOpen(false));
  useEffect(() => {
    if (!isNeeded) setOpen(false);
  }, [isNeeded]);
  if (first === undefined) return null;
  return (
    <section className="house" aria-label={pageLabels.house}>
      <VerdictShape judgement={first.judgement} />
      <p className="house-first" ref={text}>
        <PlainWords text={said} />
      </p>
      <div className="house-ways">
        <LeadTo finding={first} dispatch={dispatch} />
        {isNeeded ? (
          <button type="button" aria-expanded={open} aria-controls={sheet} onClick={() => setOpen(!open)}>
            {more > 0 ? andMorePhrase(more) : pageLabels.inFull}
          </button>
        ) : null}
      </div>
      <ul className="house-sheet paper" id={sheet} hidden={!open}>
        {findings.map((found) => (
          <li key={found.finding.code}>
            <VerdictShape judgement={found.judgement} />
            <p>
              <PlainWords text={sentence(found.finding)} />
            </p>
            <LeadTo finding={found} dispatch={dispatch} onLed={() => setOpen(false)} />
          </li>
        ))}
      </ul>
    </section>
  );
}

interface LeadToProps {
  readonly finding: HouseFinding;
  readonly dispatch: Dispatch<PageAction>;
  readonly onLed?: () => void;
}

/** The way to the frame that a finding is about, or to the page where the line is looked at. */
function LeadTo({ finding: { frame, finding }, dispatch, onLed }: LeadToProps): ReactNode {
  if (frame === null) {
    return /^line(-check)?\./.test(finding.code) ? (
      <a href={addressOf({ page: 'line' })}>{lineLabels.toLine}</a>
    ) : null;
  }
  const lead = (): void => {
    dispatch({ type: 'choose', id: frame });
    onLed?.();
  };
  return (
    <button type="button" onClick={lead}>
      {pageLabels.showFrame}
    </button>
  );
}

function useClosedByEscape(open: boolean, close: () => void): void {
  useEffect(() => {
    if (!open) return;
    const heard = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') close();
    };
    document.addEventListener('keydown', heard);
    return () => document.removeEventListener('keydown', heard);
  }, [open, close]);
}
