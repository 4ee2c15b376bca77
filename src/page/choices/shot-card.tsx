import type { Dispatch, ReactNode } from 'react';
import type { Frame, Job, Shot } from '../../contract/index.ts';
import { isOfTheShoot } from '../../facts/index.ts';
import { framesPhrase, jobLabels, questionNames, shotName, tolerancePhrases } from '../../words/index.ts';
import { patchJob } from '../link/index.ts';
import { CardDialog } from '../set/card-dialog.tsx';
import { addressOf, openJobOf, type PageAction, type PageState } from '../state/index.ts';
import { LayoutPicture } from './layout-picture.tsx';
import { LayoutUpload } from './layout-upload.tsx';
import { ShotFrames } from './shot-frames.tsx';
import { useCall } from './use-call.ts';

interface ShotCardProps {
  readonly state: PageState;
  /** In order of the day. */
  readonly frames: readonly Frame[];
  readonly dispatch: Dispatch<PageAction>;
}

/** One shot of the open job: what it is, what it still wants, and its frames. */
export function ShotCard({ state, frames, dispatch }: ShotCardProps): ReactNode {
  const job = openJobOf(state.jobs);
  const id = typeof state.card === 'object' ? state.card?.shot : undefined;
  const shot = job?.shots.find((each) => each.id === id);
  return (
    <CardDialog
      title={shot === undefined ? '' : shotName(shot, job?.shots ?? [])}
      open={shot !== undefined}
      onClose={() => {
        // Told once more when it has made way for another card: that one stays.
        if (shot !== undefined) dispatch({ type: 'card', card: null });
      }}
    >
      {job === null || shot === undefined ? null : (
        <Inside job={job} shot={shot} frames={frames} dispatch={dispatch} />
      )}
    </CardDialog>
  );
}

interface InsideProps {
  readonly job: Job;
  readonly shot: Shot;
  readonly frames: readonly Frame[];
  readonly dispatch: Dispatch<PageAction>;
}

function Inside({ job, shot, frames, dispatch }: InsideProps): ReactNode {
  const { refusal, run } = useCall();
  const own = frames.filter(
    (frame) => frame.job === job.code && frame.shot === shot.id && isOfTheShoot(frame),
  );
  const current = job.currentShot === shot.id;
  return (
    <div className="choices">
      {shot.description === '' ? null : <p className="written">{shot.description}</p>}
      <LayoutPicture job={job} shot={shot} />
      <LayoutUpload job={job} shot={shot} />
      <p className="acts">
        <button
          type="button"
          aria-pressed={current}
          onClick={() => run(() => patchJob(job.code, { currentShot: current ? null : shot.id }))}
        >
          {current ? jobLabels.framesComeHere : jobLabels.shootThisNow}
        </button>
        <a href={addressOf({ page: 'job', job: job.code })}>{jobLabels.changeOnJobPage}</a>
      </p>
      <p role="status" className="refusal">
        {refusal}
      </p>
      <ul className="wants">
        {wantsOf(shot, own).map((want) => (
          <li key={want}>{want}</li>
        ))}
      </ul>
      <h3>{framesPhrase(own.length)}</h3>
      <ShotFrames shot={shot} frames={own} dispatch={dispatch} />
    </div>
  );
}

/** What the shot asks for, with what is there of it. */
function wantsOf(shot: Shot, frames: readonly Frame[]): string[] {
  const marked = (mark: Frame['mark']): number => frames.filter((frame) => frame.mark === mark).length;
  const required = shot.requires.map((question) => questionNames[question]);
  const muted = shot.mutes.map((question) => questionNames[question]);
  return [
    ...(shot.camera === null ? [] : [jobLabels.onlyCamera(shot.camera)]),
    ...(shot.heroes === 0 ? [] : [jobLabels.heroesWanted(shot.heroes, marked('hero'))]),
    ...(shot.selects === 0 ? [] : [jobLabels.selectsWanted(shot.selects, marked('select'))]),
    ...(shot.agreement ? [jobLabels.clientAgrees] : []),
    required.length === 0 ? jobLabels.nothingRequired : jobLabels.mustBeGood(required.join(', ')),
    ...(muted.length === 0 ? [] : [jobLabels.notSpokenOf(muted.join(', '))]),
    ...tolerancePhrases(shot.tolerances),
  ];
}
