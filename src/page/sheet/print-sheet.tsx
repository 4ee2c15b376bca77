import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import { inChosenOrder } from '../../facts/index.ts';
import { contactLabels, markNames, standingNames } from '../../words/index.ts';
import { pictureAddress } from '../link/index.ts';
import { clockTime, dayAndTime } from '../set/clock.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';
import { momentOf } from '../state/index.ts';
import { standingOf } from './state/sheet-filter.ts';
import type { SheetGroup, SheetJob } from './state/sheet-groups.ts';
import { useBackCloses } from './use-back-closes.ts';

/** Frames of one print: twenty-five sheets of A4; more are asked for in parts. */
const printedMax = 600;
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
  const [loaded, setLoaded] = useState<ReadonlySet<string>>(new Set());
  const [words, setWords] = useState(true);
  useBackCloses(onClose);
  useEscape(onClose);
  const { pages, cut } = pagesOf(groups, only, inOrder);
  const wanted = pages.flatMap(({ heroes, frames }) => [...heroes, ...frames]).filter(hasPicture);
  const here = (key: string): void => setLoaded((before) => new Set(before).add(key));
  const isReady = loaded.size >= wanted.length;
  return (
    <main className="contact-print" data-job={job.code}>
      <header className="contact-bar paper">
        <button type="button" className="press" onClick={onClose}>
          ← {contactLabels.close}
        </button>
        <p role="status">
          {contactLabels.printWaits(Math.min(loaded.size, wanted.length), wanted.length)}
          {cut ? ` ${contactLabels.printBound(printedMax)}` : ''}
        </p>
        <label>
          <input type="checkbox" checked={words} onChange={() => setWords(!words)} />{' '}
          {contactLabels.withVerdicts}
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
        {pages.map(({ id, name, heroes, frames }) => (
          <section key={id}>
            <h2>{name === '' ? contactLabels.noShot : name}</h2>
            {heroes.length === 0 ? null : (
              <ul className="contact-heroes">
                {heroes.map((frame) => (
                  <Printed key={frame.id} frame={frame} words={words} widthPx={heroWidthPx} onHere={here} />
                ))}
              </ul>
            )}
            <ul className="contact-frames">
              {frames.map((frame) => (
                <Printed key={frame.id} frame={frame} words={words} widthPx={printWidthPx} onHere={here} />
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
  /** Verdict and mark too: a client needs neither. */
  readonly words: boolean;
  readonly widthPx: number;
  /** It is here, or will not come: then the paper says its name. */
  readonly onHere: (key: string) => void;
}

function Printed({ frame, words, widthPx, onHere }: PrintedProps): ReactNode {
  const key = `${frame.id} ${widthPx}`;
  const standing = standingOf(frame);
  return (
    <li className="contact-frame" data-mark={words ? frame.mark : 'none'}>
      <span className="contact-picture">
        {frame.picture.state === 'rendered' ? (
          <img
            src={pictureAddress(frame.id, widthPx, frame.picture.version)}
            alt=""
            onLoad={() => onHere(key)}
            onError={() => onHere(key)}
          />
        ) : null}
      </span>
      <span className="contact-words">
        {words ? (
          <>
            <VerdictShape judgement={standing} /> {frame.name}
          </>
        ) : (
          withoutExtension(frame.name)
        )}
        <br />
        {clockTime(momentOf(frame))}
        {!words || standing === 'good' ? '' : `, ${standingNames[standing]}`}
        {!words || frame.mark === 'none' ? '' : `, ${markNames[frame.mark]}`}
      </span>
    </li>
  );
}

function withoutExtension(name: string): string {
  return name.replace(/\.[^.]+$/, '');
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

/** The groups as far as they are printed. */
function pagesOf(
  groups: readonly SheetGroup[],
  only: ReadonlySet<string> | null,
  inOrder: boolean,
): { pages: Pick<SheetGroup, 'id' | 'name' | 'heroes' | 'frames'>[]; cut: boolean } {
  let left = printedMax;
  let cut = false;
  const wanted = ({ id }: Frame): boolean => only === null || only.has(id);
  const pages = groups.flatMap(({ id, name, heroes, order, frames }) => {
    const all = (inOrder ? inChosenOrder(frames, order) : frames).filter(wanted);
    const some = all.slice(0, left);
    left -= some.length;
    cut ||= some.length < all.length;
    return some.length === 0 ? [] : [{ id, name, heroes: heroes.filter(wanted), frames: some }];
  });
  return { pages, cut };
}
