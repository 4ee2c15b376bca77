import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import { contactLabels, markNames, standingNames, withoutExtension } from '../../words/index.ts';
import { pictureAddress } from '../link/index.ts';
import { clockTime, dayAndTime } from '../set/clock.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';
import { momentOf } from '../state/index.ts';
import { printedMax, printPages } from './state/print-pages.ts';
import { standingOf } from './state/sheet-filter.ts';
import type { SheetGroup, SheetJob } from './state/sheet-groups.ts';
import { useBackCloses } from './use-back-closes.ts';

/** Fine enough for a frame of 4 cm across at 200 points to the inch. */
const printWidthPx = 320;
const heroWidthPx = 960;

interface PrintSheetProps {
  readonly job: SheetJob;
  readonly title: string;
  readonly groups: readonly SheetGroup[];
  /** Only these; null for all that lie on the sheet. */
  readonly only: ReadonlySet<string> | null;
  /** In the shots' own order, as they are handed over; else as they lie on the sheet. */
  readonly inOrder: boolean;
  readonly onClose: () => void;
}

/**
 * The contact sheet on paper: all that lies on the sheet, or what is in hand. It is printed when every picture is here, since a
 * browser prints what it has.
 */
export function PrintSheet({ job, title, groups, only, inOrder, onClose }: PrintSheetProps): ReactNode {
  const [came, setCame] = useState<ReadonlyMap<string, boolean>>(new Map());
  const [forClient, setForClient] = useState(false);
  useBackCloses(onClose);
  useEscape(onClose);
  const { parts, cut } = printPages(groups, { only, inOrder, forClient });
  const wanted = parts.flatMap(({ heroes, others }) => [...heroes, ...others]).filter(hasPicture);
  const tell = (key: string, isHere: boolean): void => setCame((before) => new Map(before).set(key, isHere));
  const here = wanted.filter(({ id }) => came.get(id) === true).length;
  const lost = wanted.filter(({ id }) => came.get(id) === false).length;
  const isReady = here + lost >= wanted.length;
  return (
    <main className="contact-print" data-job={job.code}>
      <header className="contact-bar paper">
        <button type="button" className="press" onClick={onClose}>
          ← {contactLabels.close}
        </button>
        <p role="status">
          {contactLabels.printWaits(here, wanted.length)}
          {lost === 0 ? '' : `. ${contactLabels.printLost(lost)}`}
          {cut ? ` ${contactLabels.printBound(printedMax)}` : ''}
        </p>
        <label>
          <input type="checkbox" checked={forClient} onChange={() => setForClient(!forClient)} />{' '}
          {contactLabels.forClient}
        </label>
        <button type="button" className="press" disabled={!isReady} onClick={() => print()}>
          {contactLabels.printReady}
        </button>
      </header>
      <article className="contact-paper">
        <h1>
          {contactLabels.printTitle}: {title}
        </h1>
        <p className="contact-when">{contactLabels.printed(dayAndTime(Date.now()))}</p>
        {parts.map(({ id, name, heroes, others }) => (
          <section key={id}>
            <h2>{name === '' ? contactLabels.noShot : name}</h2>
            {heroes.length === 0 ? null : (
              <ul className="contact-heroes">
                {heroes.map((frame) => (
                  <Printed key={frame.id} {...{ frame, forClient }} widthPx={heroWidthPx} onCame={tell} />
                ))}
              </ul>
            )}
            <ul className="contact-frames">
              {others.map((frame) => (
                <Printed key={frame.id} {...{ frame, forClient }} widthPx={printWidthPx} onCame={tell} />
              ))}
            </ul>
          </section>
        ))}
      </article>
    </main>
  );
}

interface PrintedProps {
  readonly frame: Frame;
  /** Without its verdict, and its name without what it ends in. */
  readonly forClient: boolean;
  readonly widthPx: number;
  /** Its picture is here, or will not come: then the paper says its name alone. */
  readonly onCame: (id: string, isHere: boolean) => void;
}

function Printed({ frame, forClient, widthPx, onCame }: PrintedProps): ReactNode {
  const standing = standingOf(frame);
  return (
    <li className="contact-frame" data-mark={frame.mark}>
      <span className="contact-picture">
        {frame.picture.state === 'rendered' ? (
          <img
            src={pictureAddress(frame.id, widthPx, frame.picture.version)}
            alt=""
            onLoad={() => onCame(frame.id, true)}
            onError={() => onCame(frame.id, false)}
          />
        ) : null}
      </span>
      <span className="contact-words">
        {forClient ? (
          withoutExtension(frame.name)
        ) : (
          <>
            <VerdictShape judgement={standing} /> {frame.name}
          </>
        )}
        <br />
        {clockTime(momentOf(frame))}
        {forClient || standing === 'good' ? '' : `, ${standingNames[standing]}`}
        {frame.mark === 'none' ? '' : `, ${markNames[frame.mark]}`}
      </span>
    </li>
  );
}

/** Back to the sheet, as the button says. */
function useEscape(close: () => void): void {
  const latest = useRef(close);
  latest.current = close;
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') latest.current();
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, []);
}

function hasPicture({ picture }: Frame): boolean {
  return picture.state === 'rendered';
}
