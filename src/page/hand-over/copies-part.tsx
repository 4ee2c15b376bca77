import type { ReactNode } from 'react';
import type { SecondPlace, Station, Verification } from '../../contract/index.ts';
import { handOverLabels as labels, sentence } from '../../words/index.ts';
import { setVerification } from '../link/index.ts';
import { dayAndTime } from '../set/clock.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';
import { ProgressLine } from './progress-line.tsx';
import { PutBack } from './put-back.tsx';
import { useAsked } from './use-asked.ts';

interface CopiesProps {
  readonly station: Station;
  readonly verification: Verification | null;
}

/** Second places, and when everything was read again last. */
export function CopiesPart({ station, verification }: CopiesProps): ReactNode {
  const { secondPlaces } = station;
  return (
    <>
      {secondPlaces.length === 0 ? <p>{labels.noPlace}</p> : null}
      <ul className="hand-places">
        {secondPlaces.map((place) => (
          <li key={place.folder}>
            <VerdictShape judgement={judgementOf(place)} />
            <div>
              <h3>{place.folder}</h3>
              <p>{saidOf(place)}</p>
              {place.trouble === null ? null : <p>{sentence(place.trouble)}</p>}
              <p className="hand-soft">{readOf(place.folder, verification)}</p>
            </div>
          </li>
        ))}
      </ul>
      <PutBack isWanted={hasBadOriginals(station, verification)} />
      {verification === null ? null : <ReadAgain verification={verification} />}
    </>
  );
}

/** Known by any way: a reading of everything, or a copy that was to be made. */
function hasBadOriginals({ kept }: Station, verification: Verification | null): boolean {
  const isTold = kept.some(({ code }) => code === 'keep.originals-bad');
  return isTold || (verification?.last?.badOriginals ?? 0) > 0;
}

function judgementOf({ otherDevice, waiting, trouble }: SecondPlace): 'good' | 'doubt' | 'bad' {
  if (otherDevice === false) return 'bad';
  return otherDevice === null || waiting > 0 || trouble !== null ? 'doubt' : 'good';
}

function saidOf({ otherDevice, waiting }: SecondPlace): string {
  if (otherDevice === null) return labels.away;
  if (waiting > 0) return labels.waiting(waiting);
  return otherDevice ? labels.upToDate : labels.notCounting;
}

function readOf(folder: string, verification: Verification | null): string {
  const read = verification?.last?.places.find((place) => place.folder === folder);
  if (read === undefined) return labels.neverRead;
  return read.wasRead ? labels.placeRead(read.files, read.bad) : labels.placeNotRead;
}

function ReadAgain({ verification }: { readonly verification: Verification }): ReactNode {
  const { running, last, dueAt, everyDays } = verification;
  const { busy, refusal, ask } = useAsked();
  return (
    <div className="hand-again">
      <h3>{labels.readAgain}</h3>
      {last === null ? <p>{labels.neverRead}</p> : <p>{lastWords(last)}</p>}
      {running === null ? null : <Running running={running} />}
      {running === null && dueAt !== null ? (
        <p className="hand-soft">{labels.due(dayAndTime(Date.parse(dueAt)))}</p>
      ) : null}
      {running === null && everyDays === 0 ? <p className="hand-soft">{labels.notDue}</p> : null}
      <p className="hand-acts">
        {running?.pace === 'full' ? null : (
          <button
            type="button"
            className="press"
            aria-disabled={busy}
            onClick={() => ask(() => setVerification('running'))}
          >
            {running === null ? labels.readNow : labels.readFull}
          </button>
        )}
        {running === null ? null : (
          <button
            type="button"
            className="press"
            aria-disabled={busy}
            onClick={() => ask(() => setVerification('stopped'))}
          >
            {labels.letRest}
          </button>
        )}
      </p>
      <p role="status" className="hand-refusal" hidden={refusal === ''}>
        {refusal}
      </p>
    </div>
  );
}

function lastWords({ endedAt, files, bytes, badOriginals }: NonNullable<Verification['last']>): string {
  const when = dayAndTime(Date.parse(endedAt));
  const originals = badOriginals === 0 ? labels.originalsFine : labels.originalsBad(badOriginals);
  return `${labels.lastRead(when, files, bytes)} ${originals}`;
}

function Running({ running }: { readonly running: NonNullable<Verification['running']> }): ReactNode {
  const { doneFiles, files, doneBytes, bytes, bad, pace, waiting, toGoMs } = running;
  const words = files === 0 ? labels.readingBegins : labels.reading(doneFiles, files);
  return (
    <>
      <ProgressLine name={labels.readAgain} done={doneBytes} of={bytes} words={words} toGoMs={toGoMs} />
      {bad > 0 ? <p>{labels.badSoFar(bad)}</p> : null}
      {pace === 'slow' ? (
        <p className="hand-soft">{waiting ? labels.readingWaits : labels.readingSlow}</p>
      ) : null}
    </>
  );
}
