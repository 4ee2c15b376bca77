import type { ReactNode } from 'react';
import type { Station } from '../../contract/index.ts';
import { demoSteps, firstSteps, pageLabels, sentence } from '../../words/index.ts';
import { CameraEntries } from '../cameras/camera-entries.tsx';
import { PlainWords } from '../plain-words.tsx';
import { clockTime } from './clock.ts';

/** The page before the first frame: what to do, in three lines, with what to enter; in the demo what will be seen. */
export function FirstSteps({ station }: { readonly station: Station }): ReactNode {
  const steps = station.demo ? demoSteps : firstSteps;
  return (
    <section className="first-steps paper" aria-label={steps[0] ?? ''}>
      <ol>
        {steps.map((step) => (
          <li key={step} className="first-step">
            {step}
          </li>
        ))}
      </ol>
      {station.demo ? null : <ToEnter station={station} />}
    </section>
  );
}

function ToEnter({ station }: { readonly station: Station }): ReactNode {
  return (
    <>
      <h2 className="unseen">{pageLabels.enterOnCamera}</h2>
      <CameraEntries station={station} />
      <NewestWord station={station} />
    </>
  );
}

/** What the cameras tried last: the first hint when something does not work yet. */
function NewestWord({ station }: { readonly station: Station }): ReactNode {
  const newest = station.cameras
    .flatMap((camera) => camera.log)
    .reduce<Station['cameras'][number]['log'][number] | null>(
      (best, entry) => (best === null || entry.at > best.at ? entry : best),
      null,
    );
  if (newest === null) return null;
  return (
    <p className="newest-word">
      <time dateTime={newest.at}>{clockTime(Date.parse(newest.at))}</time>{' '}
      <PlainWords text={sentence(newest.finding)} />
    </p>
  );
}
