import { type ReactNode, useEffect } from 'react';
import type { Job, Shot } from '../../contract/index.ts';
import { questions } from '../../facts/index.ts';
import { callSheetLabels, careLines, jobPageLabels, questionNames, shotName } from '../../words/index.ts';
import { LayoutPicture } from '../choices/layout-picture.tsx';
import { dayAndTime, dayOf } from '../set/clock.ts';
import { addressOf, jobOf, type PageState } from '../state/index.ts';
import { PaperHead } from './paper-head.tsx';

interface CallSheetProps {
  readonly state: PageState;
  readonly code: string;
}

/** A job on paper, for everybody on the set: who, when, where, the shots in order with room to tick, and what to take care of. */
export function CallSheet({ state, code }: CallSheetProps): ReactNode {
  const job = jobOf(state.jobs, code);
  useEffect(() => {
    if (job !== null) document.title = jobPageLabels.callSheetOf(job.code);
  }, [job]);
  if (job === null)
    return (
      <div className="call-page">
        <p className="paper call-wait" role="alert">
          {state.jobs === null ? jobPageLabels.loading : jobPageLabels.noSuchJob(code)}
          <a href={addressOf({ page: 'job', job: null })}>← {callSheetLabels.toJobs}</a>
        </p>
      </div>
    );
  return (
    <div className="call-page">
      <nav className="call-acts paper" aria-label={jobPageLabels.callSheet}>
        <a href={addressOf({ page: 'job', job: code })}>← {callSheetLabels.back}</a>
        <button type="button" className="press" onClick={() => print()}>
          {callSheetLabels.print}
        </button>
      </nav>
      <main className="call-sheet">
        <Head job={job} />
        {job.notes === '' ? null : (
          <section className="call-notes">
            <h2>{callSheetLabels.notes}</h2>
            <p className="written">{job.notes}</p>
          </section>
        )}
        <section>
          <h2>{callSheetLabels.shots}</h2>
          {job.shots.length === 0 ? <p>{callSheetLabels.noShots}</p> : null}
          <ol className="call-shots">
            {job.shots.map((shot, index) => (
              <CallShot key={shot.id} job={job} shot={shot} number={index + 1} />
            ))}
          </ol>
        </section>
        <section className="call-care">
          <h2>{callSheetLabels.careTitle}</h2>
          <ul>
            {careLines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </section>
        <footer>
          {job.code} ·{' '}
          {callSheetLabels.written(dayAndTime(Date.parse(state.station?.now ?? '') || Date.now()))}
        </footer>
      </main>
    </div>
  );
}

function Head({ job }: { readonly job: Job }): ReactNode {
  const { code, title, client, from, to, place } = job;
  const days =
    from === null
      ? to === null
        ? callSheetLabels.noDay
        : dayOf(to)
      : to === null || to === from
        ? dayOf(from)
        : callSheetLabels.until(dayOf(from), dayOf(to));
  const rows = [
    [callSheetLabels.job, code],
    [callSheetLabels.client, client],
    [callSheetLabels.days, days],
    [callSheetLabels.place, place === '' ? callSheetLabels.noPlace : place],
  ] as const;
  return <PaperHead title={title === '' ? code : title} rows={rows} />;
}

interface CallShotProps {
  readonly job: Job;
  readonly shot: Shot;
  readonly number: number;
}

/** Kept on one page; a box to tick when it is taken, a second where the client's word is wanted. */
function CallShot({ job, shot, number }: CallShotProps): ReactNode {
  const ticks = [callSheetLabels.taken, ...(shot.agreement ? [callSheetLabels.agreed] : [])];
  const wanted = [
    jobPageLabels.heroesShort(shot.heroes),
    ...(shot.selects === 0 ? [] : [jobPageLabels.selectsShort(shot.selects)]),
  ].join(', ');
  // All five is the rule, and needs no ink.
  const required =
    shot.requires.length === questions.length
      ? ''
      : shot.requires.map((question) => questionNames[question]).join(', ');
  return (
    <li>
      <span className="call-number">{number}</span>
      <div className="call-said">
        <h3>{shotName(shot, job.shots)}</h3>
        {shot.description === '' ? null : <p className="written">{shot.description}</p>}
        <p className="call-facts">
          <span>
            {callSheetLabels.camera}: {shot.camera ?? callSheetLabels.anyCamera}
          </span>
          {shot.heroes + shot.selects === 0 ? null : (
            <span>
              {callSheetLabels.wanted}: {wanted}
            </span>
          )}
          {required === '' ? null : (
            <span>
              {callSheetLabels.mustBeGood}: {required}
            </span>
          )}
        </p>
      </div>
      <LayoutPicture job={job} shot={shot} width={480} />
      <ul className="call-ticks">
        {ticks.map((tick) => (
          <li key={tick}>
            <span className="tick-box" />
            {tick}
          </li>
        ))}
      </ul>
    </li>
  );
}
