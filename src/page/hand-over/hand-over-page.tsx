import { type ReactNode, useEffect } from 'react';
import type { Job } from '../../contract/index.ts';
import { bagLabels, destinationLabels, handOverLabels as labels, titleOf } from '../../words/index.ts';
import { TopLine } from '../job/top-line.tsx';
import { addressOf, cardSeen, openJobOf, type PageState } from '../state/index.ts';
import { useStrike } from '../strike/use-strike.ts';
import '../style/hand-over.css';
import '../style/line.css';
import { BagPart } from './bag-part.tsx';
import { BeginDelivery } from './begin-delivery.tsx';
import { CardPart } from './card-part.tsx';
import { CopiesPart } from './copies-part.tsx';
import { DeliverySlips } from './delivery-slips.tsx';
import { DestinationsPart } from './destinations-part.tsx';
import { headingOf } from './headings.ts';
import { NextList } from './next-list.tsx';
import { type HandOverPart, nextSteps } from './next-steps.ts';
import { Papers } from './papers.tsx';
import { StrikePart } from './strike-part.tsx';
import { type Destinations, useDestinations } from './use-destinations.ts';

interface HandOverPageProps {
  readonly state: PageState;
  /** The job that the address names; null for all. */
  readonly code: string | null;
}

/** What leaves the house, and what stays safe in it: deliveries, copies, cards, the strike check, packages. */
export function HandOverPage({ state, code }: HandOverPageProps): ReactNode {
  const { jobs, frames, station, link, handOver } = state;
  const all = jobs ?? [];
  const about = code === null ? all : all.filter((job) => job.code === code);
  const ofJob = code ?? openJobOf(all)?.code ?? null;
  const strike = useStrike(ofJob, [jobs, frames, station?.secondPlaces, cardSeen(handOver), link.state]);
  useEffect(() => {
    document.title = titleOf(code === null ? labels.title : labels.titleOf(code));
  }, [code]);
  const deliveries = handOver.deliveries?.filter(({ job }) => code === null || job === code) ?? null;
  const steps = nextSteps({
    ...handOver,
    deliveries,
    station,
    jobs: about,
    strike: strike.check,
    hasFrames: frames.order.length > 0,
  });
  const destinations = useDestinations();
  return (
    <div className="page-paper hand-page" data-surround={state.dimSurround ? 'dim' : 'grey'}>
      <TopLine state={state} />
      <main className="hand-sheet">
        <header className="paper hand-part hand-head">
          <h1>{code === null ? labels.title : labels.titleOf(code)}</h1>
          <JobLinks jobs={all} code={code} />
          <h2 id={headingOf('next')} tabIndex={-1}>
            {labels.next}
          </h2>
          <NextList steps={steps} isLost={link.state === 'lost'} />
        </header>
        <div className="hand-column">
          <Part id="deliveries" title={labels.deliveries}>
            {deliveries === null ? null : <DeliverySlips deliveries={deliveries} />}
            {ofJob === null ? null : <Papers job={ofJob} contactSheets={handOver.papers.get(ofJob) ?? []} />}
          </Part>
          <Part id="begin" title={labels.begin}>
            <BeginDelivery
              jobs={about}
              job={code}
              frames={frames}
              allFrames={state.allFrames}
              destinations={namesOf(destinations)}
            />
          </Part>
        </div>
        <div className="hand-column">
          <Part id="card" title={labels.card}>
            <CardPart card={handOver.card} cameras={station?.cameras ?? []} />
          </Part>
          <Part id="copies" title={labels.copies}>
            {station === null ? null : <CopiesPart station={station} verification={handOver.verification} />}
          </Part>
          <Part id="destinations" title={destinationLabels.title}>
            <DestinationsPart {...destinations} />
          </Part>
          <Part id="strike" title={labels.strike}>
            <StrikePart seen={strike} />
          </Part>
          <Part id="bag" title={bagLabels.title}>
            <BagPart work={handOver.bag} jobs={all} job={ofJob} destinations={namesOf(destinations).join()} />
          </Part>
        </div>
      </main>
    </div>
  );
}

function namesOf({ list }: Destinations): readonly string[] {
  return list === null || list === 'elsewhere' ? [] : list.map(({ name }) => name);
}

interface PartProps {
  readonly id: HandOverPart | 'destinations';
  readonly title: string;
  readonly children: ReactNode;
}

/** The heading takes the focus where a step leads here. */
function Part({ id, title, children }: PartProps): ReactNode {
  return (
    <section className="paper hand-part" data-part={id} aria-labelledby={headingOf(id)}>
      <h2 id={headingOf(id)} tabIndex={-1}>
        {title}
      </h2>
      {children}
    </section>
  );
}

function JobLinks({
  jobs,
  code,
}: {
  readonly jobs: readonly Job[];
  readonly code: string | null;
}): ReactNode {
  if (jobs.length === 0) return null;
  return (
    <nav className="hand-jobs" aria-label={labels.jobs}>
      {[null, ...jobs.map((job) => job.code)].map((each) => (
        <a
          key={each ?? ''}
          href={addressOf({ page: 'hand-over', job: each })}
          aria-current={each === code ? 'page' : undefined}
        >
          {each ?? labels.allJobs}
        </a>
      ))}
    </nav>
  );
}
